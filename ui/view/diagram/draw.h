#pragma once

#include "ui/view/diagram/canvas.h"

namespace halfsplit::view::diagram {

/// Draws all of it. Every part, wire and rail is a subject of its own, with its texts.
void draw(const Diagram& diagram, Canvas& canvas);

/// One symbol, without its texts.
void draw_symbol(const Symbol& symbol, Canvas& canvas);

}  // namespace halfsplit::view::diagram
