#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/nodal/ordering.h"

namespace halfsplit::network {

/// Which couplings exist while the nodes of a network are eliminated one after the other: structure, no
/// values. Nodes are numbered by their place in the elimination order here ("columns"). Column p holds the
/// couplings of p to columns that are eliminated later, by increasing column.
struct EliminationPattern {
    std::vector<int> column_of_node;
    std::vector<int> start;         ///< column p owns entries start[p] … start[p+1]-1; size columns + 1
    std::vector<int> row;           ///< per entry: the later column it couples to
    std::vector<int> column;        ///< per entry: the column that owns it
    std::vector<int> before_start;  ///< column p is coupled to earlier columns by before[before_start[p]] …
    std::vector<int> before;        ///< … entries whose row is p, by increasing column
    int first_watched = 0;          ///< the columns from here on have all watched nodes, and little else

    /// What has a value is numbered by slots: first the entries, then each column's tie to ground, then the
    /// sums of shares.
    ///
    /// A column that many earlier ones are coupled to (a bus bar, a ground splice) sums what they add share
    /// by share, so that a change behind one of them means one short sum anew and not that of a thousand
    /// circuits.
    struct Share {
        int column = 0;
        int begin = 0;  ///< of it are before[begin] … before[end - 1]
        int end = 0;
        int slot = 0;  ///< its sums: the tie to ground, then those of the column's entries
    };
    std::vector<Share> shares;  ///< by column

    /// Eliminating p adds to the tie to ground of each later column it is coupled to: the slot, per entry.
    std::vector<int> ground_target;

    /// It adds to the coupling between each two later columns i < j, too. The slots added to, for entry (p,
    /// i) and every later entry (p, j): target[target_start[entry]] …. Empty if it would be larger than the
    /// limit (meshes: a grid of 400 x 400 would need gigabytes), and then looked up on the way.
    std::vector<int> target_start;
    std::vector<int> target;
    bool has_targets = false;

    int columns() const { return static_cast<int>(column_of_node.size()); }
    int entries() const { return static_cast<int>(row.size()); }
    int entries_of(int p) const { return start[at(p) + 1] - start[at(p)]; }
    int ground_slot(int p) const { return entries() + p; }
    int first_share_slot() const { return entries() + columns(); }
    int all_slots() const;

    /// Empty where a column sums all that is before it at once.
    std::span<const Share> shares_of(int p) const;

    /// The column eliminated next among those that p still touches, -1 if none: a change in p changes it too.
    int parent(int p) const { return start[at(p)] < start[at(p) + 1] ? row[at(start[at(p)])] : -1; }

    /// The entry that couples two columns; they must be joined by a link.
    int entry(int column_a, int column_b) const;
};

/// Entries in the target table per entry and column of the pattern, at most. Wiring needs 1 to 2.
inline constexpr int kTargetsPerEntry = 24;

/// A couple of nodes may be linked more than once. `watched` nodes are eliminated as late as goes without
/// more couplings, so that what depends on them alone takes the last columns only. Throws std::length_error
/// beyond 2^31 couplings.
EliminationPattern analyse(int node_count, std::span<const Link> links,
                           int targets_per_entry = kTargetsPerEntry, std::span<const int> watched = {});

}  // namespace halfsplit::network
