#pragma once

#include "ui/window/frame/input_feed.h"

struct GLFWwindow;

namespace halfsplit::window {

/// What GLFW tells, in the order in which it happened. The feed must outlive the window.
void gather_events(GLFWwindow* window, InputFeed& feed);

}  // namespace halfsplit::window
