#pragma once

#include <cstdint>

#include "engine/model/circuit.h"

namespace halfsplit::test {

/// Parts of all kinds, wired pin to pin at random: nothing a vehicle would have, everything a layout must
/// bear. The same start gives the same circuit on every machine.
model::Circuit random_circuit(std::uint64_t start);

}  // namespace halfsplit::test
