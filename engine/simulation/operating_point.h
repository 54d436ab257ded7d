#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"

namespace halfsplit::simulation {

/// A network at rest: potentials, currents, and the condition every part has come to.
struct OperatingPoint {
    std::vector<int> conditions;      ///< one per part of the circuit
    std::vector<double> potential_v;  ///< one per node, against the body
    std::vector<double> current_a;    ///< one per branch, from -> to; an ideal short has none of its own: 0
    std::vector<bool> floating;       ///< one per node: nothing drives it
    double worst_residual_a = 0;      ///< Kirchhoff's current law, see network::Solution
    double energy_mismatch_w = 0;
    int rounds = 0;  ///< how often parts changed their condition before all agreed

    double potential_at(int node) const {
        return node == network::kBody ? 0.0 : potential_v[static_cast<std::size_t>(node)];
    }
};

/// Why there is no operating point: parts that never come to rest (a relay that opens its own feed), or a
/// network that has no solution.
struct NoRest {
    std::string message;
    std::vector<int> chattering;  ///< indices of the parts that keep changing
};

/// Solves the network and lets relays and the like change their condition until all agree with what they see.
/// They start from `conditions` (one per part), which matters to whatever has hysteresis or latches.
tl::expected<OperatingPoint, NoRest> find_operating_point(const network::Network& network,
                                                          std::vector<int> conditions,
                                                          const model::Circuit& circuit);

/// What a network came to.
struct Rest {
    std::vector<int> conditions;  ///< before: those it starts from
    network::Solution solution;
    int rounds = 0;  ///< see OperatingPoint
};

/// find_operating_point over a solver that is kept from one time to the next: its branches are those of the
/// network, in that order (the caller sees to their laws; which of them conduct is seen to here), and after
/// them whatever else.
tl::expected<void, NoRest> come_to_rest(const network::Network& network, const model::Circuit& circuit,
                                        network::Solver& solver, Rest& rest);

/// Solves the network with every part in the condition given, whatever it is drawn to.
tl::expected<OperatingPoint, NoRest> solve_in_conditions(const network::Network& network,
                                                         const std::vector<int>& conditions);

}  // namespace halfsplit::simulation
