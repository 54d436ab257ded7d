#include "engine/network/network.h"

#include <algorithm>

namespace halfsplit::network {

bool Network::conducts(const NetworkBranch& branch, const std::vector<int>& in_conditions) const {
    if (!branch.electrical.conducts) return false;
    if (branch.always || branch.conducts_in.empty()) return true;
    const int condition = in_conditions[static_cast<std::size_t>(branch.slot)];
    return std::ranges::find(branch.conducts_in, condition) != branch.conducts_in.end();
}

Graph Network::graph() const {
    Graph graph(static_cast<std::size_t>(node_count) + 1);
    for (int node = 0; node < node_count; ++node) graph[static_cast<std::size_t>(node)].node = node;
    const auto vertex = [&](int node) { return static_cast<std::size_t>(node == kBody ? node_count : node); };
    for (std::size_t i = 0; i < branches.size(); ++i)
        boost::add_edge(vertex(branches[i].electrical.from), vertex(branches[i].electrical.to),
                        GraphEdge{static_cast<int>(i)}, graph);
    return graph;
}

}  // namespace halfsplit::network
