#pragma once

#include <boost/graph/adjacency_list.hpp>

#include "engine/network/network.h"

namespace halfsplit::network {

struct GraphVertex {
    int node = kBody;
};
struct GraphEdge {
    int branch = 0;
};
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, GraphVertex, GraphEdge>;

/// The multigraph of all branches; its vertex i is node i, its last vertex the body. Apart from network.h,
/// which nearly every file reads, since the library's headers take longer to compile than most of them.
Graph graph_of(const Network& network);

}  // namespace halfsplit::network
