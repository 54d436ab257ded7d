#pragma once

#include <vector>

#include "engine/network/network.h"

namespace halfsplit::network {

/// The network's branches, in order, each conducting as it does with its parts in these conditions: what a
/// Solver takes.
std::vector<Branch> branches_in(const Network& network, const std::vector<int>& conditions);

}  // namespace halfsplit::network
