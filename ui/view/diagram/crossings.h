#pragma once

#include "ui/view/diagram/geometry.h"

namespace halfsplit::view::diagram {

/// Where the eye has to jump: places where wires or rails cross that are not joined. Wires that run over each
/// other from a common pin count as one line; dashed lines of mechanisms do not count.
int crossings(const Diagram& diagram);

}  // namespace halfsplit::view::diagram
