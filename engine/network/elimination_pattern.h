#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/ordering.h"

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

    /// Eliminating p adds to the coupling between each two later columns i < j it is coupled to. The entries
    /// added to, for entry (p, i) and every later entry (p, j): target[target_start[entry]] …. Empty if it
    /// would be larger than the limit (meshes: a grid of 400 x 400 would need gigabytes), and then looked up
    /// on the way.
    std::vector<int> target_start;
    std::vector<int> target;
    bool has_targets = false;

    int columns() const { return static_cast<int>(column_of_node.size()); }
    int entries() const { return static_cast<int>(row.size()); }

    /// The column eliminated next among those that p still touches, -1 if none: a change in p changes it too.
    int parent(int p) const { return start[at(p)] < start[at(p) + 1] ? row[at(start[at(p)])] : -1; }

    /// The entry that couples two columns; they must be joined by a link.
    int entry(int column_a, int column_b) const;
};

/// Entries in the target table per entry and column of the pattern, at most. Wiring needs 1 to 2.
inline constexpr int kTargetsPerEntry = 24;

/// A couple of nodes may be linked more than once. Throws std::length_error beyond 2^31 couplings.
EliminationPattern analyse(int node_count, std::span<const Link> links,
                           int targets_per_entry = kTargetsPerEntry);

}  // namespace halfsplit::network
