#pragma once

#include <array>
#include <span>
#include <vector>

namespace halfsplit::network {

/// Two nodes that some branch joins; both are nodes 0 … node_count-1, never the body, and they differ.
using Link = std::array<int, 2>;

/// The order in which to eliminate nodes so that elimination creates few new couplings: all nodes, each once.
/// Wiring is nearly a tree, so most nodes have one or two neighbours left when their turn comes. Those are
/// peeled off in linear time, neighbours never in the same sweep (a long chain is then halved again and again
/// instead of being eaten from one end, which keeps the paths of a later change short). What remains, the
/// meshed core, goes to approximate minimum degree (Amestoy, Davis & Duff, SIAM J. Matrix Anal. Appl. 17(4),
/// 1996; libamd).
std::vector<int> elimination_order(int node_count, std::span<const Link> links);

}  // namespace halfsplit::network
