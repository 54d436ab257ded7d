#include "engine/network/elimination_structure.h"

#include <algorithm>

#include "engine/network/ordering.h"

namespace halfsplit::network {

namespace {

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// Each pair of nodes that any coupling joins, once.
std::vector<Edge> distinct_edges(int node_count, std::span<const Coupling> couplings) {
    std::vector<int> start(at(node_count) + 1, 0);
    for (const Coupling& coupling : couplings) ++start[at(std::min(coupling.a, coupling.b)) + 1];
    for (std::size_t i = 1; i < start.size(); ++i) start[i] += start[i - 1];
    std::vector<int> higher(couplings.size());
    std::vector<int> next(start.begin(), start.end() - 1);
    for (const Coupling& coupling : couplings)
        higher[at(next[at(std::min(coupling.a, coupling.b))]++)] = std::max(coupling.a, coupling.b);
    std::vector<Edge> edges;
    edges.reserve(couplings.size());
    std::vector<int> seen_from(at(node_count), -1);
    for (int low = 0; low < node_count; ++low)
        for (int i = start[at(low)]; i < start[at(low) + 1]; ++i) {
            if (seen_from[at(higher[at(i)])] == low) continue;
            seen_from[at(higher[at(i)])] = low;
            edges.push_back({low, higher[at(i)]});
        }
    return edges;
}

/// The earlier columns each column is joined to directly.
void collect_earlier(const EliminationStructure& structure, std::span<const Edge> edges,
                     std::vector<int>& start, std::vector<int>& earlier) {
    start.assign(structure.node_of_column.size() + 1, 0);
    const auto later_of = [&](const Edge& edge) {
        return std::max(structure.column_of_node[at(edge.a)], structure.column_of_node[at(edge.b)]);
    };
    for (const Edge& edge : edges) ++start[at(later_of(edge)) + 1];
    for (std::size_t i = 1; i < start.size(); ++i) start[i] += start[i - 1];
    earlier.resize(edges.size());
    std::vector<int> next(start.begin(), start.end() - 1);
    for (const Edge& edge : edges)
        earlier[at(next[at(later_of(edge))]++)] =
            std::min(structure.column_of_node[at(edge.a)], structure.column_of_node[at(edge.b)]);
}

/// Visits every entry (column, row) of the factor, rows ascending: row i holds column j where a path from j
/// up the elimination tree starts at a neighbour of i (Liu 1990, from memory). `parent` is found on the way
/// at the first call.
template <class Visit>
void walk_rows(const std::vector<int>& start, const std::vector<int>& earlier, std::vector<int>& parent,
               bool is_known, Visit visit) {
    const int columns = static_cast<int>(parent.size());
    std::vector<int> mark(parent.size(), -1);
    for (int row = 0; row < columns; ++row) {
        mark[at(row)] = row;
        for (int i = start[at(row)]; i < start[at(row) + 1]; ++i)
            for (int column = earlier[at(i)]; mark[at(column)] != row; column = parent[at(column)]) {
                if (!is_known && parent[at(column)] < 0) parent[at(column)] = row;
                mark[at(column)] = row;
                visit(column, row);
            }
    }
}

void fill_pattern(EliminationStructure& structure, std::span<const Edge> edges) {
    const std::size_t columns = structure.node_of_column.size();
    std::vector<int> earlier_start;
    std::vector<int> earlier;
    collect_earlier(structure, edges, earlier_start, earlier);
    std::vector<int> parent(columns, -1);
    structure.start.assign(columns + 1, 0);
    walk_rows(earlier_start, earlier, parent, false,
              [&](int column, int) { ++structure.start[at(column) + 1]; });
    for (std::size_t i = 1; i < structure.start.size(); ++i) structure.start[i] += structure.start[i - 1];
    structure.row.resize(at(structure.start.back()));
    std::vector<int> next(structure.start.begin(), structure.start.end() - 1);
    walk_rows(earlier_start, earlier, parent, true,
              [&](int column, int row) { structure.row[at(next[at(column)]++)] = row; });
}

void place_couplings(EliminationStructure& structure, std::span<const Coupling> couplings) {
    structure.entry_of_coupling.reserve(couplings.size());
    structure.coupling_start.assign(structure.row.size() + 1, 0);
    for (const Coupling& coupling : couplings) {
        const int a = structure.column_of_node[at(coupling.a)];
        const int b = structure.column_of_node[at(coupling.b)];
        const auto first = structure.row.begin() + structure.start[at(std::min(a, b))];
        const auto last = structure.row.begin() + structure.start[at(std::min(a, b)) + 1];
        const auto entry = std::lower_bound(first, last, std::max(a, b)) - structure.row.begin();
        structure.entry_of_coupling.push_back(static_cast<int>(entry));
        ++structure.coupling_start[static_cast<std::size_t>(entry) + 1];
    }
    for (std::size_t i = 1; i < structure.coupling_start.size(); ++i)
        structure.coupling_start[i] += structure.coupling_start[i - 1];
    structure.couplings_of_entry.resize(couplings.size());
    std::vector<int> next(structure.coupling_start.begin(), structure.coupling_start.end() - 1);
    for (std::size_t i = 0; i < couplings.size(); ++i)
        structure.couplings_of_entry[at(next[at(structure.entry_of_coupling[i])]++)] = static_cast<int>(i);
}

}  // namespace

EliminationStructure analyse_elimination(int node_count, std::span<const Coupling> couplings) {
    EliminationStructure structure;
    const std::vector<Edge> edges = distinct_edges(node_count, couplings);
    structure.node_of_column = elimination_order(node_count, edges);
    structure.column_of_node.resize(at(node_count));
    for (int column = 0; column < node_count; ++column)
        structure.column_of_node[at(structure.node_of_column[at(column)])] = column;
    fill_pattern(structure, edges);
    place_couplings(structure, couplings);
    return structure;
}

}  // namespace halfsplit::network
