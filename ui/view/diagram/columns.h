#pragma once

#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

/// Orders the items of every row, the pins of units on their sides, and sets all x: depth-first from what is
/// fed, in the author's order, then sweeps that bring what is joined above each other, the best of them kept.
/// The author's columns win.
void arrange_columns(Grid& grid, const model::Circuit& circuit);

/// An author's column is this many slots wide.
inline constexpr int kColumnSlots = 3;

}  // namespace halfsplit::view::diagram
