#pragma once

#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// Index of the part's place into the circuit, -1 where it has none.
int place_of(const model::Circuit& circuit, int part);

/// Of a wire's two ends the one that takes fewer minutes to get at; -1 where one of them needs nothing
/// opened.
int easier_place(const model::Circuit& circuit, const model::Wire& wire);

}  // namespace halfsplit::diagnosis
