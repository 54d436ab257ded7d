#pragma once

#include <span>
#include <vector>

#include "engine/network/branch.h"

namespace halfsplit::network {

/// Groups of nodes that conducting branches join to each other but not to the body; each ascending.
std::vector<std::vector<int>> floating_islands(int node_count, std::span<const Branch> branches);

}  // namespace halfsplit::network
