#pragma once

#include "ui/window/frame/input_feed.h"

struct GLFWwindow;

namespace halfsplit::window {

/// Where the events of a window go.
struct Gathered {
    InputFeed feed;             ///< in the order in which they happened
    bool must_refresh = false;  ///< what other windows covered has come to light
};

/// From now on; it must outlive the window's last event.
void gather_events(GLFWwindow* window, Gathered& gathered);

}  // namespace halfsplit::window
