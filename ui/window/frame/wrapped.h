#pragma once

#include <string>

namespace halfsplit::window {

/// The text with line breaks in place of spaces, so that no line is wider in the present font. ImGui's own
/// wrapping breaks after a full stop as well, and "K2.87" must stay in one piece. A word that is wider by
/// itself stays as it is.
std::string wrapped(const std::string& text, float width_px);

}  // namespace halfsplit::window
