#include "engine/network/graph.h"

namespace halfsplit::network {

Graph graph_of(const Network& network) {
    const auto nodes = static_cast<std::size_t>(network.node_count);
    Graph graph(nodes + 1);
    for (int node = 0; node < network.node_count; ++node) graph[static_cast<std::size_t>(node)].node = node;
    const auto vertex = [&](int node) { return node == kBody ? nodes : static_cast<std::size_t>(node); };
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const Branch& branch = network.branches[i].electrical;
        boost::add_edge(vertex(branch.from), vertex(branch.to), GraphEdge{static_cast<int>(i)}, graph);
    }
    return graph;
}

}  // namespace halfsplit::network
