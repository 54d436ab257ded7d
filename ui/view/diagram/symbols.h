#pragma once

#include "ui/view/diagram/piece.h"

namespace halfsplit::view::diagram {

/// The symbol of a dressed piece whose left top corner is at `from`.
Symbol symbol_of(const Piece& piece, const model::Circuit& circuit, Spot from);

}  // namespace halfsplit::view::diagram
