#include "engine/network/elimination_pattern.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <stdexcept>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::network {

namespace {

/// Turns counts in start[i + 1] into offsets.
void accumulate(std::vector<int>& start) {
    for (std::size_t i = 1; i < start.size(); ++i) start[i] += start[i - 1];
}

/// The given links, each at its earlier column.
struct LaterNeighbours {
    std::vector<int> start;
    std::vector<int> column;
};

LaterNeighbours later_neighbours(std::span<const Link> links, const std::vector<int>& column_of_node) {
    LaterNeighbours later{std::vector<int>(column_of_node.size() + 1, 0), std::vector<int>(links.size())};
    const auto ends = [&](const Link& link) {
        return std::minmax(column_of_node[at(link[0])], column_of_node[at(link[1])]);
    };
    for (const Link& link : links) ++later.start[at(ends(link).first) + 1];
    accumulate(later.start);
    std::vector<int> end(later.start.begin(), later.start.end() - 1);
    for (const Link& link : links) {
        const auto [first, second] = ends(link);
        later.column[at(end[at(first)]++)] = second;
    }
    return later;
}

/// Column p is coupled to its own later neighbours and to whatever the columns it is the parent of were
/// coupled to.
void find_couplings(EliminationPattern& pattern, const LaterNeighbours& later) {
    const int n = pattern.columns();
    std::vector<int> seen_by(at(n), -1);
    std::vector<int> first_child(at(n), -1);
    std::vector<int> next_child(at(n), -1);
    pattern.start.assign(at(n) + 1, 0);
    pattern.row.reserve(later.column.size() * 2);
    const auto add = [&](int p, int row) {
        if (row == p || seen_by[at(row)] == p) return;
        seen_by[at(row)] = p;
        pattern.row.push_back(row);
    };
    for (int p = 0; p < n; ++p) {
        for (int k = later.start[at(p)]; k < later.start[at(p) + 1]; ++k) add(p, later.column[at(k)]);
        for (int child = first_child[at(p)]; child >= 0; child = next_child[at(child)])
            for (int e = pattern.start[at(child)]; e < pattern.start[at(child) + 1]; ++e)
                add(p, pattern.row[at(e)]);
        if (pattern.row.size() > at(std::numeric_limits<int>::max() - n))
            throw std::length_error("the network is too densely meshed to be solved");
        pattern.start[at(p) + 1] = static_cast<int>(pattern.row.size());
        if (pattern.start[at(p) + 1] - pattern.start[at(p)] > 1)
            std::sort(pattern.row.begin() + pattern.start[at(p)], pattern.row.end());
        if (const int parent = pattern.parent(p); parent >= 0) {
            next_child[at(p)] = first_child[at(parent)];
            first_child[at(parent)] = p;
        }
    }
}

void list_earlier_couplings(EliminationPattern& pattern) {
    pattern.column.resize(pattern.row.size());
    pattern.before.resize(pattern.row.size());
    pattern.before_start.assign(pattern.start.size(), 0);
    for (const int row : pattern.row) ++pattern.before_start[at(row) + 1];
    accumulate(pattern.before_start);
    std::vector<int> end(pattern.before_start.begin(), pattern.before_start.end() - 1);
    for (int p = 0; p < pattern.columns(); ++p)
        for (int e = pattern.start[at(p)]; e < pattern.start[at(p) + 1]; ++e) {
            pattern.column[at(e)] = p;
            pattern.before[at(end[at(pattern.row[at(e)])]++)] = e;
        }
}

std::int64_t count_targets(const EliminationPattern& pattern) {
    std::int64_t count = 0;
    for (int p = 0; p < pattern.columns(); ++p) {
        const std::int64_t entries = pattern.start[at(p) + 1] - pattern.start[at(p)];
        count += entries * (entries - 1) / 2;
    }
    return count;
}

void tabulate_targets(EliminationPattern& pattern) {
    pattern.has_targets = true;
    pattern.target.resize(static_cast<std::size_t>(count_targets(pattern)));
    pattern.target_start.resize(pattern.row.size());
    int next = 0;
    for (int e = 0; e < pattern.entries(); ++e) {
        pattern.target_start[at(e)] = next;
        next += pattern.start[at(pattern.column[at(e)]) + 1] - e - 1;
    }
    std::vector<int> entry_of_row(at(pattern.columns()));
    for (int p = 0; p < pattern.columns(); ++p) {
        for (int e = pattern.start[at(p)]; e < pattern.start[at(p) + 1]; ++e)
            entry_of_row[at(pattern.row[at(e)])] = e;
        for (int k = pattern.before_start[at(p)]; k < pattern.before_start[at(p) + 1]; ++k) {
            const int e = pattern.before[at(k)];
            const int end = pattern.start[at(pattern.column[at(e)]) + 1];
            int t = pattern.target_start[at(e)];
            for (int f = e + 1; f < end; ++f) pattern.target[at(t++)] = entry_of_row[at(pattern.row[at(f)])];
        }
    }
}

}  // namespace

int EliminationPattern::entry(int column_a, int column_b) const {
    const auto [p, later] = std::minmax(column_a, column_b);
    const auto first = row.begin() + start[at(p)];
    const auto last = row.begin() + start[at(p) + 1];
    return static_cast<int>(std::lower_bound(first, last, later) - row.begin());
}

EliminationPattern analyse(int node_count, std::span<const Link> links, int targets_per_entry) {
    EliminationPattern pattern;
    pattern.column_of_node.resize(at(node_count));
    int column = 0;
    for (const int node : elimination_order(node_count, links)) pattern.column_of_node[at(node)] = column++;
    find_couplings(pattern, later_neighbours(links, pattern.column_of_node));
    list_earlier_couplings(pattern);
    const std::int64_t limit = std::int64_t{targets_per_entry} * (pattern.entries() + node_count);
    if (count_targets(pattern) <= std::min<std::int64_t>(limit, std::numeric_limits<int>::max()))
        tabulate_targets(pattern);
    return pattern;
}

}  // namespace halfsplit::network
