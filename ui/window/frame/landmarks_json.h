#pragma once

#include <string>

#include "ui/window/frame/landmarks.h"

namespace halfsplit::window {

/// {"button:done": [left, top, right, bottom], …}, in pixels.
std::string landmarks_json(const Landmarks& landmarks);

}  // namespace halfsplit::window
