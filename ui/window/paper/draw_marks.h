#pragma once

#include <imgui.h>

#include "ui/window/frame/frame.h"
#include "ui/window/paper/marks.h"
#include "ui/window/paper/viewport.h"

namespace halfsplit::window {

/// What lies under the diagram's lines: glow, and the colours of potentials.
void draw_marks_below(ImDrawList& list, const Viewport& viewport, const Frame& frame,
                      const view::diagram::Diagram& diagram, const Marks& marks);

/// What lies over them: leads, numbers, what is chosen.
void draw_marks_above(ImDrawList& list, const Viewport& viewport, const Frame& frame,
                      const view::diagram::Diagram& diagram, const Marks& marks);

}  // namespace halfsplit::window
