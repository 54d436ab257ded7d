#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"
#include "engine/simulation/operating_point.h"

namespace halfsplit::diagnosis {

/// Whether a control unit has power, as its condition says; one without a supply pin always has.
bool has_power(const network::Network& network, int unit, const std::vector<int>& conditions);

/// As simulation::come_to_rest(); then outputs of control units that have lost their power let go, which may
/// take it from others, until none does. False where it does not come to rest.
bool come_to_rest_with_power(const model::Circuit& circuit, const network::Network& network,
                             network::Solver& solver, simulation::Rest& rest);

}  // namespace halfsplit::diagnosis
