#include "engine/tracing/cut_tree.h"

#include <deque>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>

namespace halfsplit::tracing {

namespace {

using EdgeIndex = boost::property<boost::edge_index_t, std::size_t>;
using Graph =
    boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, EdgeIndex>;

Graph graph_of(int vertex_count, const std::vector<std::pair<int, int>>& edges) {
    Graph graph(static_cast<std::size_t>(vertex_count));
    for (std::size_t i = 0; i < edges.size(); ++i)
        boost::add_edge(static_cast<std::size_t>(edges[i].first), static_cast<std::size_t>(edges[i].second),
                        EdgeIndex(i), graph);
    return graph;
}

}  // namespace

CutTree::CutTree(int vertex_count, const std::vector<std::pair<int, int>>& edges, int root)
    : root_(root), block_of_(static_cast<std::size_t>(vertex_count), -1) {
    const Graph graph = graph_of(vertex_count, edges);
    std::vector<std::size_t> component(edges.size());
    const std::size_t count = boost::biconnected_components(
        graph, boost::make_iterator_property_map(component.begin(), boost::get(boost::edge_index, graph)));
    std::vector<std::vector<int>> members(count);
    std::vector<std::vector<std::size_t>> components_at(static_cast<std::size_t>(vertex_count));
    for (std::size_t i = 0; i < edges.size(); ++i)
        for (const int vertex : {edges[i].first, edges[i].second}) {
            members[component[i]].push_back(vertex);
            components_at[static_cast<std::size_t>(vertex)].push_back(component[i]);
        }
    entrance_of_.assign(count, -1);
    std::deque<int> open{root};
    while (!open.empty()) {
        const int entrance = open.front();
        open.pop_front();
        for (const std::size_t block : components_at[static_cast<std::size_t>(entrance)]) {
            if (entrance_of_[block] >= 0) continue;
            entrance_of_[block] = entrance;
            for (const int member : members[block]) {
                int& towards_root = block_of_[static_cast<std::size_t>(member)];
                if (member == root || member == entrance || towards_root >= 0) continue;
                towards_root = static_cast<int>(block);
                open.push_back(member);
            }
        }
    }
}

std::vector<int> CutTree::cuts_to(int vertex) const {
    std::vector<int> cuts;
    if (vertex == root_ || !is_reached(vertex)) return cuts;
    int at = entrance_of_[static_cast<std::size_t>(block_of_[static_cast<std::size_t>(vertex)])];
    while (at != root_) {
        cuts.push_back(at);
        at = entrance_of_[static_cast<std::size_t>(block_of_[static_cast<std::size_t>(at)])];
    }
    return cuts;
}

}  // namespace halfsplit::tracing
