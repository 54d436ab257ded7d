#pragma once

#include <span>
#include <vector>

namespace halfsplit::network {

/// An undirected edge between two different nodes.
struct Edge {
    int a = 0;
    int b = 0;
};

/// An order in which eliminating the nodes fills in little. Harness networks are nearly trees: nodes with one
/// or two neighbours go first, in linear time, which is what minimum degree would do with them; the core that
/// remains is ordered by AMD (Amestoy, Davis, Duff; SuiteSparse). Returns the nodes, first to be eliminated
/// first.
std::vector<int> elimination_order(int node_count, std::span<const Edge> edges);

}  // namespace halfsplit::network
