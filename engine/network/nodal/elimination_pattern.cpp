#include "engine/network/nodal/elimination_pattern.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <stdexcept>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::network {

namespace {

/// A column with more than this coupled to it before is summed by shares of so many, unless it is one of a
/// mesh, where sums by shares would need more memory than all else: those are coupled to many later ones,
/// too. A change costs a share and the sum of all shares: the square root of what a bus bar has before it,
/// some 450, makes both equal.
constexpr int kSummedAtOnce = 48;
constexpr int kOfShare = 24;
constexpr int kMostLaterOfShared = 8;

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
    pattern.row.clear();
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

/// Columns that no watched node is eliminated into come first, in the order they had: a column after all that
/// is eliminated into it is as good as any other order. False where that changes nothing.
bool put_last(std::span<const int> watched, EliminationPattern& pattern) {
    const int n = pattern.columns();
    pattern.first_watched = n;
    if (watched.empty()) return false;
    std::vector<char> is_last(at(n), 0);
    for (const int node : watched)
        for (int p = pattern.column_of_node[at(node)]; p >= 0 && is_last[at(p)] == 0; p = pattern.parent(p))
            is_last[at(p)] = 1;
    pattern.first_watched = static_cast<int>(std::ranges::count(is_last, 0));
    std::vector<int> place(at(n));
    int first = 0;
    int last = pattern.first_watched;
    for (int p = 0; p < n; ++p) place[at(p)] = is_last[at(p)] == 0 ? first++ : last++;
    for (int& column : pattern.column_of_node) column = place[at(column)];
    return !std::ranges::is_sorted(place);
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

void share_out(EliminationPattern& pattern) {
    int slot = pattern.first_share_slot();
    for (int p = 0; p < pattern.columns(); ++p) {
        const int end = pattern.before_start[at(p) + 1];
        const int begin = pattern.before_start[at(p)];
        if (end - begin <= kSummedAtOnce || pattern.entries_of(p) > kMostLaterOfShared) continue;
        for (int first = begin; first < end; first += kOfShare) {
            pattern.shares.push_back({p, first, std::min(first + kOfShare, end), slot});
            slot += 1 + pattern.entries_of(p);
        }
    }
    pattern.ground_target.resize(pattern.row.size());
    for (int e = 0; e < pattern.entries(); ++e)
        pattern.ground_target[at(e)] = pattern.ground_slot(pattern.row[at(e)]);
    for (const auto& share : pattern.shares)
        for (int k = share.begin; k < share.end; ++k)
            pattern.ground_target[at(pattern.before[at(k)])] = share.slot;
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
            const int ground = pattern.ground_target[at(e)];
            const bool is_shared = ground >= pattern.first_share_slot();
            const int moved = is_shared ? ground + 1 - pattern.start[at(p)] : 0;
            int t = pattern.target_start[at(e)];
            for (int f = e + 1; f < end; ++f)
                pattern.target[at(t++)] = moved + entry_of_row[at(pattern.row[at(f)])];
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

int EliminationPattern::all_slots() const {
    return shares.empty() ? first_share_slot() : shares.back().slot + 1 + entries_of(shares.back().column);
}

std::span<const EliminationPattern::Share> EliminationPattern::shares_of(int p) const {
    if (before_start[at(p) + 1] - before_start[at(p)] <= kSummedAtOnce) return {};
    const auto first = std::ranges::lower_bound(shares, p, {}, &Share::column);
    const auto last = std::ranges::upper_bound(shares, p, {}, &Share::column);
    return {first, last};
}

EliminationPattern analyse(int node_count, std::span<const Link> links, int targets_per_entry,
                           std::span<const int> watched) {
    EliminationPattern pattern;
    pattern.column_of_node.resize(at(node_count));
    int column = 0;
    for (const int node : elimination_order(node_count, links)) pattern.column_of_node[at(node)] = column++;
    find_couplings(pattern, later_neighbours(links, pattern.column_of_node));
    if (put_last(watched, pattern)) find_couplings(pattern, later_neighbours(links, pattern.column_of_node));
    list_earlier_couplings(pattern);
    share_out(pattern);
    const std::int64_t limit = std::int64_t{targets_per_entry} * (pattern.entries() + node_count);
    if (count_targets(pattern) <= std::min<std::int64_t>(limit, std::numeric_limits<int>::max()))
        tabulate_targets(pattern);
    return pattern;
}

}  // namespace halfsplit::network
