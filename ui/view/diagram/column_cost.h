#pragma once

#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

/// What is to be small: level lines, bends, crossings, and the width of the whole.
long column_cost(const Grid& grid);

/// Of the two channels beside a row only.
long row_cost(const Grid& grid, int row);

}  // namespace halfsplit::view::diagram
