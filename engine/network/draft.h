#pragma once

#include <vector>

#include <tl/expected.hpp>

#include "engine/network/network.h"
#include "engine/network/terminals.h"

namespace halfsplit::network {

/// A network whose branches still join terminals, and whose ideal shorts are not merged yet: what faults are
/// worked into.
struct Draft {
    Network network;  ///< its branches and conditions are those of the finished one
    Terminals terminals;
    std::vector<model::Electrics> electrics;  ///< one per part
};

tl::expected<Draft, Diagnostics> draft_network(const model::Circuit& circuit, const Situation& situation);

/// Whether its two ends become one node.
bool is_ideal_short(const NetworkBranch& branch);

}  // namespace halfsplit::network
