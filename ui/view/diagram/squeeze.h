#pragma once

#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

/// Makes the grid narrower without bending a line that is straight and without changing an order: as long as
/// there is a way, what stands at the right edge moves left with all that has to move with it.
void squeeze(Grid& grid);

}  // namespace halfsplit::view::diagram
