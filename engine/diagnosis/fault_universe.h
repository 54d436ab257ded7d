#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/fault.h"

namespace halfsplit::diagnosis {

/// A fault the circuit can have, and how often relative to the others.
struct PossibleFault {
    network::Fault fault;
    double rate = 0;  ///< the kind's own, or what the circuit's author says for this part
};

/// Everything that can break in this circuit, in the author's order: parts, plug contacts, plugs, wires.
/// Shorts between wires and exchanged contacts are taken between neighbours in a plug, where they happen;
/// chafed wires where the circuit has a quantity `vibration`.
std::vector<PossibleFault> fault_universe(const model::Circuit& circuit);

}  // namespace halfsplit::diagnosis
