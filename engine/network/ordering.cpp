#include "engine/network/ordering.h"

#include <amd.h>

#include <algorithm>
#include <stdexcept>

namespace halfsplit::network {

namespace {

/// Neighbour lists in one block: a node's list has room for its own edges, and elimination of a node with two
/// neighbours only ever replaces an entry, so lists never grow.
class ShrinkingGraph {
  public:
    ShrinkingGraph(int node_count, std::span<const Edge> edges)
        : start_(static_cast<std::size_t>(node_count) + 1, 0),
          degree_(static_cast<std::size_t>(node_count), 0) {
        for (const Edge& edge : edges) {
            ++start_[at(edge.a) + 1];
            ++start_[at(edge.b) + 1];
        }
        for (std::size_t i = 1; i < start_.size(); ++i) start_[i] += start_[i - 1];
        neighbours_.resize(static_cast<std::size_t>(start_.back()));
        for (const Edge& edge : edges) {
            push(edge.a, edge.b);
            push(edge.b, edge.a);
        }
    }

    int degree(int node) const { return degree_[at(node)]; }
    std::span<const int> neighbours(int node) const {
        return {neighbours_.data() + start_[at(node)], static_cast<std::size_t>(degree(node))};
    }
    bool adjacent(int a, int b) const {
        const auto list = neighbours(degree(a) < degree(b) ? a : b);
        return std::ranges::find(list, degree(a) < degree(b) ? b : a) != list.end();
    }
    void remove(int node, int neighbour) {
        int* const entry = find(node, neighbour);
        *entry = neighbours_[static_cast<std::size_t>(start_[at(node)] + --degree_[at(node)])];
    }
    void replace(int node, int neighbour, int by) { *find(node, neighbour) = by; }

  private:
    static std::size_t at(int node) { return static_cast<std::size_t>(node); }
    void push(int node, int neighbour) {
        neighbours_[static_cast<std::size_t>(start_[at(node)] + degree_[at(node)]++)] = neighbour;
    }
    int* find(int node, int neighbour) {
        int* const first = neighbours_.data() + start_[at(node)];
        return std::find(first, first + degree(node), neighbour);
    }

    std::vector<int> start_;
    std::vector<int> degree_;
    std::vector<int> neighbours_;
};

/// Eliminates nodes of one or two neighbours until none is left; `order` receives them.
void peel(ShrinkingGraph& graph, int node_count, std::vector<int>& order, std::vector<bool>& gone) {
    std::vector<int> ready;
    for (int node = node_count - 1; node >= 0; --node)
        if (graph.degree(node) <= 2) ready.push_back(node);
    while (!ready.empty()) {
        const int node = ready.back();
        ready.pop_back();
        if (gone[static_cast<std::size_t>(node)] || graph.degree(node) > 2) continue;
        gone[static_cast<std::size_t>(node)] = true;
        order.push_back(node);
        const auto list = graph.neighbours(node);
        const int a = list.empty() ? -1 : list[0];
        const int b = list.size() < 2 ? -1 : list[1];
        if (a >= 0 && b >= 0 && !graph.adjacent(a, b)) {
            graph.replace(a, node, b);
            graph.replace(b, node, a);
            continue;
        }
        for (const int neighbour : {a, b}) {
            if (neighbour < 0) continue;
            graph.remove(neighbour, node);
            if (graph.degree(neighbour) <= 2) ready.push_back(neighbour);
        }
    }
}

void order_core(const ShrinkingGraph& graph, int node_count, const std::vector<bool>& gone,
                std::vector<int>& order) {
    std::vector<int> core;
    std::vector<int> core_index(static_cast<std::size_t>(node_count), -1);
    for (int node = 0; node < node_count; ++node) {
        if (gone[static_cast<std::size_t>(node)]) continue;
        core_index[static_cast<std::size_t>(node)] = static_cast<int>(core.size());
        core.push_back(node);
    }
    if (core.empty()) return;
    std::vector<int> column_start{0};
    std::vector<int> rows;
    for (const int node : core) {
        for (const int neighbour : graph.neighbours(node))
            rows.push_back(core_index[static_cast<std::size_t>(neighbour)]);
        column_start.push_back(static_cast<int>(rows.size()));
    }
    std::vector<int> permutation(core.size());
    if (amd_order(static_cast<int>(core.size()), column_start.data(), rows.data(), permutation.data(),
                  nullptr, nullptr) < AMD_OK)
        throw std::logic_error("the ordering library refused a valid graph");
    for (const int index : permutation) order.push_back(core[static_cast<std::size_t>(index)]);
}

}  // namespace

std::vector<int> elimination_order(int node_count, std::span<const Edge> edges) {
    std::vector<int> order;
    order.reserve(static_cast<std::size_t>(node_count));
    ShrinkingGraph graph(node_count, edges);
    std::vector<bool> gone(static_cast<std::size_t>(node_count), false);
    peel(graph, node_count, order, gone);
    order_core(graph, node_count, gone, order);
    return order;
}

}  // namespace halfsplit::network
