#pragma once

#include <imgui.h>

#include <span>
#include <vector>

#include "ui/window/frame/theme.h"

namespace halfsplit::window {

/// Lengths of strokes and gaps in turn, at 100 %; empty: one stroke.
using LinePattern = std::vector<float>;

/// Of a channel, so that colour alone tells nobody which is which.
const LinePattern& pattern_of(std::size_t channel);

/// A line through all the points, in strokes and gaps.
void draw_line(ImDrawList& list, std::span<const ImVec2> points, const LinePattern& pattern, double scale,
               ImU32 colour, float width_px);

}  // namespace halfsplit::window
