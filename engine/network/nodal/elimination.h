#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/nodal/elimination_pattern.h"

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
    /// `targets_per_entry` bounds the memory for meshes, see EliminationPattern; `watched`: see analyse().
    Elimination(int node_count, std::span<const Link> links, int targets_per_entry = kTargetsPerEntry,
                std::span<const int> watched = {});

    const EliminationPattern& pattern() const { return pattern_; }
    int column(int node) const { return pattern_.column_of_node[at(node)]; }

    /// Slots number everything whose value can be set: first the couplings, then each column's tie to ground.
    int slots() const { return pattern_.first_share_slot(); }
    int coupling_slot(int node_a, int node_b) const { return pattern_.entry(column(node_a), column(node_b)); }
    int ground_slot(int node) const { return pattern_.ground_slot(column(node)); }

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

    /// The same for the columns first … last - 1, once those from `last` on are known.
    void solve_range(int first, int last, std::span<double> potential) const;
    /// The same for the columns from `first` on, with currents that flow into some of them beside: `flow_a`
    /// has one for each column of the elimination and is 0 again afterwards.
    void solve_from(int first, std::span<double> flow_a, std::span<double> potential) const;

    /// Columns and all that their elimination touched, in the order solve_at() wants.
    std::vector<int> paths_of(std::span<const int> columns) const;
    /// The same for one, which takes no longer than the path is long.
    std::vector<int> path_of(int column) const;

    /// Potentials by column for other sources with the same conductances: on entry `value` holds the current
    /// injected into each column, on return the potentials.
    void solve_injected(std::span<double> value) const;

    // After factor() or update():
    /// Of what flows into an entry's column, the part that goes on to its row.
    double ratio(int entry) const { return ratio_[at(entry)]; }
    /// A column's potential per ampere into it if all later ones stood at 0.
    double own_ohm(int column) const { return inverse_[at(column)]; }

    /// The entries of the inverse of the conductance matrix where that has couplings, by slot: for a coupling
    /// the potential at its one node per ampere into the other, for a tie to ground that of the node itself.
    /// Sums of positive numbers like everything here (the equations of Takahashi, Fagan & Chin, 8th PICA
    /// conference, 1973). `ohm` has slots() elements.
    void inverse_entries(std::span<double> ohm) const;

    /// Columns with a pivot of exactly 0: one for each island without any path to ground.
    std::vector<int> zero_pivots() const;

  private:
    using Share = EliminationPattern::Share;
    void eliminate(int column);
    void eliminate_all_with_targets();
    void gather(int column);
    template <bool kHasTargets>
    void add_stars(int begin, int end);
    void clear_sums(int column, int ground, int first_entry);
    void gather_shares(std::span<const Share> shares);
    void add_up(std::span<const Share> shares);
    void eliminate_anew(int column);
    double potential_of(int column, std::span<const double> potential) const;
    int mark_path(int column);
    void touch(int column);
    void bring_back(int column);

    EliminationPattern pattern_;
    std::vector<Tie> own_;                ///< as set
    std::vector<Tie> tie_;                ///< with what earlier columns added; then the sums of shares
    std::vector<double> ratio_;           ///< per entry: conductance / pivot of its column
    std::vector<double> inverse_;         ///< per column: 1 / pivot, 0 for a pivot of 0
    std::vector<double> potential_;       ///< per column: its potential if all later ones were at 0
    std::vector<int> changed_;            ///< columns with values set since the last elimination
    std::vector<std::uint64_t> waiting_;  ///< a bit per column: to be eliminated anew
    std::vector<char> is_share_changed_;  ///< per slot of the shares; the first of each says it
    std::vector<int> slot_of_row_;        ///< where what is added to a coupling goes, without targets
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
