#pragma once

#include "ui/window/frame/fonts.h"
#include "ui/window/frame/landmarks.h"
#include "ui/window/frame/theme.h"

namespace halfsplit::window {

/// What everybody who draws something in a frame needs.
struct Frame {
    Theme theme;
    Fonts fonts;
    double scale = 1;  ///< 1 is 100 %
    Landmarks* landmarks = nullptr;

    float px(double at_100_percent) const { return static_cast<float>(at_100_percent * scale); }
};

}  // namespace halfsplit::window
