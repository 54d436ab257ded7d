#pragma once

#include <span>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/elimination_pattern.h"

namespace halfsplit::network {

/// What lies between two nodes, or between a node and ground: a conductance and, beside it, a current source.
struct Tie {
    double conductance = 0;  ///< S, never negative
    double source = 0;       ///< A; its sign is said where a Tie is set
    friend bool operator==(const Tie&, const Tie&) = default;
};

/// Solves a network of conductances and current sources by eliminating its nodes one by one (the star of a
/// node becomes a mesh between its neighbours), without ever subtracting conductances.
///
/// In matrix terms this is LDL^T of the grounded conductance matrix, but the diagonal is never stored: what
/// is kept per node is the conductance to each neighbour and to ground, and a pivot is their sum. Every
/// conductance that arises is a sum of products of positive numbers, so each is correct to a few units in the
/// last place, however far apart the values are and however weakly a part of the network is tied to ground
/// (the idea is the elimination of Grassmann, Taksar & Heyman for Markov chains, Operations Research 33(5),
/// 1985). Sources are kept where they belong too, between two nodes, and pass through the elimination as
/// sources between nodes. Adding them up per node first would lose the small difference that decides the
/// potential of a part that floats with its own battery in it. Each rounding then acts like an EMF changed by
/// its last bits.
///
/// A pivot of exactly 0 means that its node, with all that was eliminated into it, has no path to ground: one
/// such pivot per island. Its potential is set to 0.
class Elimination {
  public:
    /// Analyses the structure, once. Nodes may be linked more than once; such links share one coupling.
    /// `targets_per_entry` bounds the memory for meshes, see EliminationPattern.
    Elimination(int node_count, std::span<const Link> links, int targets_per_entry = kTargetsPerEntry);

    const EliminationPattern& pattern() const { return pattern_; }
    int column(int node) const { return pattern_.column_of_node[at(node)]; }

    /// Slots number everything that has a value: first the couplings, then each column's tie to ground.
    int slots() const { return pattern_.entries() + pattern_.columns(); }
    int coupling_slot(int node_a, int node_b) const { return pattern_.entry(column(node_a), column(node_b)); }
    int ground_slot(int node) const { return pattern_.entries() + column(node); }

    /// Sets one value. The source of a coupling flows through it into the node eliminated first (the one with
    /// the lower column), that of a tie to ground into the node. Takes effect with update() or factor().
    void set(int slot, Tie tie);
    Tie get(int slot) const { return own_[at(slot)]; }
    /// The same with what the columns eliminated before have added, after factor() or update().
    Tie eliminated(int slot) const { return tie_[at(slot)]; }

    /// Eliminates everything anew.
    void factor();

    /// Eliminates anew the columns that the set() calls since the last time can have changed, or all of them
    /// when that is quicker. Each value is summed anew in the same order, so the result is that of factor()
    /// to the bit.
    void update();

    /// Brings all up to date and remembers it.
    void remember();
    /// Takes back whatever was set and eliminated since remember(), to the bit. Quicker than eliminating it
    /// again.
    void go_back();

    /// Potentials by column after factor() or update(); `potential` has at least pattern().columns()
    /// elements.
    void solve(std::span<double> potential) const;

    /// The same for some columns only: sorted, the last one first, and with each all that its elimination
    /// touched (see paths_of).
    void solve_at(std::span<const int> columns, std::span<double> potential) const;

    /// Columns and all that their elimination touched, in the order solve_at() wants.
    std::vector<int> paths_of(std::span<const int> columns) const;

    /// Potentials by column for other sources with the same conductances: on entry `value` holds the current
    /// injected into each column, on return the potentials.
    void solve_injected(std::span<double> value) const;

    /// Whole columns of the inverse of the conductance matrix, which are its rows too: table[p * count + k]
    /// is the potential of column p per ampere into columns[k]. `table` has columns() * count elements or
    /// more.
    void inverse_columns(std::span<const int> columns, std::span<double> table) const;

    /// The entries of the inverse of the conductance matrix where that has couplings, by slot: for a coupling
    /// the potential at its one node per ampere into the other, for a tie to ground that of the node itself.
    /// Sums of positive numbers like everything here (the equations of Takahashi, Fagan & Chin, 8th PICA
    /// conference, 1973). `ohm` has slots() elements.
    void inverse_entries(std::span<double> ohm) const;

    /// Columns with a pivot of exactly 0: one for each island without any path to ground.
    std::vector<int> zero_pivots() const;

  private:
    void eliminate(int column);
    void eliminate_all_with_targets();
    void gather(int column);
    double potential_of(int column, std::span<const double> potential) const;
    void mark_path(int column);
    void touch(int column);
    void bring_back(int column);

    EliminationPattern pattern_;
    std::vector<Tie> own_;           ///< as set
    std::vector<Tie> tie_;           ///< with what the elimination of earlier columns added
    std::vector<double> ratio_;      ///< per entry: conductance / pivot of its column
    std::vector<double> inverse_;    ///< per column: 1 / pivot, 0 for a pivot of 0
    std::vector<double> potential_;  ///< per column: its potential if all later ones were at 0
    std::vector<int> changed_;       ///< columns with values set since the last elimination
    std::vector<int> path_;
    std::vector<char> marked_;
    std::vector<int> entry_of_row_;
    bool factored_ = false;

    /// All of the above that has a value, as it was.
    struct Remembered {
        std::vector<Tie> own;
        std::vector<Tie> tie;
        std::vector<double> ratio;
        std::vector<double> inverse;
        std::vector<double> potential;
    };
    Remembered remembered_;
    std::vector<int> touched_;  ///< columns in which that may differ from now, unless it may in all
    std::vector<char> is_touched_;
    bool are_all_touched_ = true;
};

}  // namespace halfsplit::network
