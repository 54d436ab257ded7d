#pragma once

#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// Index of the part's place into the circuit, -1 where it has none.
int place_of(const model::Circuit& circuit, int part);

}  // namespace halfsplit::diagnosis
