#include "engine/tracing/cut_tree.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/biconnected_components.hpp>
#include <boost/graph/dominator_tree.hpp>
#include <deque>
#include <set>
#include <tuple>

namespace halfsplit::tracing {

namespace {

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// The edges that can be walked from the root, each pair of vertices once: the algorithms below expect no
/// others, and for what separates vertices a second edge beside the first says nothing.
std::vector<CutEdge> walkable(int vertex_count, const std::vector<CutEdge>& edges, int root) {
    std::vector<std::vector<int>> ways(at(vertex_count));
    for (const CutEdge& edge : edges) {
        ways[at(edge.from)].push_back(edge.to);
        if (!edge.one_way) ways[at(edge.to)].push_back(edge.from);
    }
    std::vector<bool> reached(at(vertex_count), false);
    reached[at(root)] = true;
    std::deque<int> open{root};
    while (!open.empty()) {
        for (const int next : ways[at(open.front())]) {
            if (!reached[at(next)]) open.push_back(next);
            reached[at(next)] = true;
        }
        open.pop_front();
    }
    std::set<std::tuple<int, int, bool>> seen;
    std::vector<CutEdge> kept;
    for (const CutEdge& edge : edges) {
        const bool swap = !edge.one_way && edge.from > edge.to;
        const CutEdge ordered{swap ? edge.to : edge.from, swap ? edge.from : edge.to, edge.one_way};
        if (reached[at(edge.from)] && seen.emplace(ordered.from, ordered.to, ordered.one_way).second)
            kept.push_back(ordered);
    }
    return kept;
}

/// The number of each edge's biconnected component, and how many there are.
std::size_t biconnected(int vertex_count, const std::vector<CutEdge>& edges,
                        std::vector<std::size_t>& component) {
    using EdgeIndex = boost::property<boost::edge_index_t, std::size_t>;
    boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, EdgeIndex> graph(
        at(vertex_count));
    for (std::size_t i = 0; i < edges.size(); ++i)
        boost::add_edge(at(edges[i].from), at(edges[i].to), EdgeIndex(i), graph);
    component.resize(edges.size());
    return boost::biconnected_components(
        graph, boost::make_iterator_property_map(component.begin(), boost::get(boost::edge_index, graph)));
}

/// Walks from the root from component to component; a vertex's cut is where its component was entered.
std::vector<int> cuts_by_components(int vertex_count, const std::vector<CutEdge>& edges, int root) {
    std::vector<std::size_t> component;
    const std::size_t count = biconnected(vertex_count, edges, component);
    std::vector<std::vector<int>> members(count);
    std::vector<std::vector<std::size_t>> components_at(at(vertex_count));
    for (std::size_t i = 0; i < edges.size(); ++i)
        for (const int vertex : {edges[i].from, edges[i].to}) {
            members[component[i]].push_back(vertex);
            components_at[at(vertex)].push_back(component[i]);
        }
    std::vector<int> cut_before(at(vertex_count), -1);
    std::vector<bool> entered(count, false);
    std::deque<int> open{root};
    while (!open.empty()) {
        const int entrance = open.front();
        open.pop_front();
        for (const std::size_t block : components_at[at(entrance)]) {
            if (entered[block]) continue;
            entered[block] = true;
            for (const int member : members[block]) {
                if (member == root || member == entrance || cut_before[at(member)] >= 0) continue;
                cut_before[at(member)] = entrance;
                open.push_back(member);
            }
        }
    }
    return cut_before;
}

std::vector<int> cuts_by_dominators(int vertex_count, const std::vector<CutEdge>& edges, int root) {
    boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS> graph(at(vertex_count));
    for (const CutEdge& edge : edges) {
        boost::add_edge(at(edge.from), at(edge.to), graph);
        if (!edge.one_way) boost::add_edge(at(edge.to), at(edge.from), graph);
    }
    constexpr std::size_t kNone = static_cast<std::size_t>(-1);
    std::vector<std::size_t> dominator(at(vertex_count), kNone);
    boost::lengauer_tarjan_dominator_tree(
        graph, at(root),
        boost::make_iterator_property_map(dominator.begin(), boost::get(boost::vertex_index, graph)));
    std::vector<int> cut_before;
    cut_before.reserve(dominator.size());
    for (const std::size_t each : dominator)
        cut_before.push_back(each == kNone ? -1 : static_cast<int>(each));
    return cut_before;
}

}  // namespace

CutTree::CutTree(int vertex_count, const std::vector<CutEdge>& edges, int root) : root_(root) {
    const std::vector<CutEdge> kept = walkable(vertex_count, edges, root);
    cut_before_ = std::ranges::any_of(kept, &CutEdge::one_way) ? cuts_by_dominators(vertex_count, kept, root)
                                                               : cuts_by_components(vertex_count, kept, root);
}

std::vector<int> CutTree::cuts_to(int vertex) const {
    std::vector<int> cuts;
    if (vertex == root_ || !is_reached(vertex)) return cuts;
    for (int cut = cut_before_[at(vertex)]; cut != root_; cut = cut_before_[at(cut)]) cuts.push_back(cut);
    return cuts;
}

}  // namespace halfsplit::tracing
