#pragma once

#include <imgui.h>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::window {

/// As ImGui's draw lists want them.
inline ImU32 packed(view::diagram::Colour colour, double opacity = 1) {
    return IM_COL32(colour.red, colour.green, colour.blue, static_cast<int>(255 * opacity));
}

}  // namespace halfsplit::window
