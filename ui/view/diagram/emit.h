#pragma once

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/levels.h"

namespace halfsplit::view::diagram {

/// The geometry of a grid whose columns are arranged; its bounds begin at 0, 0.
Diagram drawn(Grid grid, const model::Circuit& circuit);

}  // namespace halfsplit::view::diagram
