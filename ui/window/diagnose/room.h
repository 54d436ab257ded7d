#pragma once

#include <string>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::window {

/// A trolley so high, at 100 %, has room for what not everybody needs.
inline constexpr double kRoomyPx = 760;

/// The text, or as much of its beginning as fits into that width, with an ellipsis.
std::string fitted(const std::string& text, float width_px);

/// One line, no wider than that.
void fitted_text(const std::string& text, float width_px, view::diagram::Colour colour);

}  // namespace halfsplit::window
