#pragma once

#include <span>
#include <vector>

#include "engine/network/nodal/branch.h"

namespace halfsplit::network {

/// For each node a number that it shares with the nodes it has a conducting path to, and kBody for those with
/// a path to the body. Islands are numbered by the order of their first nodes.
std::vector<int> islands(int node_count, std::span<const Branch> branches);

}  // namespace halfsplit::network
