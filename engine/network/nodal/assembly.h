#pragma once

#include <span>
#include <vector>

#include "engine/base/index.h"
#include "engine/network/nodal/branch.h"
#include "engine/network/nodal/elimination.h"

namespace halfsplit::network {

/// Puts branches, each a straight line i = conductance v + source, into an Elimination. Branches between the
/// same two nodes share a slot; when one of them changes, the slot is summed anew, never corrected by a
/// difference.
class Assembly {
  public:
    /// Throws std::invalid_argument if a branch names a node outside 0 … node_count-1 and not the body.
    Assembly(int node_count, std::span<const Branch> branches);

    /// A branch's straight line; `source` is the current from -> to at 0 V. Takes effect with solve().
    void set(int branch, Tie line);
    const Tie& line(int branch) const { return line_[at(branch)]; }
    /// Whether that is any line but 0 A at all voltages.
    bool carries(int branch) const { return carries_[at(branch)] != 0; }

    /// Sets a line's source alone, without eliminating anew for it as yet: solve_watched() counts the
    /// difference as a current that flows into the branch's ends, which are to be watched. Where many sources
    /// change this is quicker than set(). solve() eliminates as if they had been set.
    void shift_source(int branch, double source);

    /// Brings the elimination up to date and gives the potentials by column, then 0 for the body: columns()
    /// + 1.
    std::span<const double> solve();
    /// The same for some columns only, see Elimination::solve_at; the others are not to be used.
    std::span<const double> solve_at(std::span<const int> columns);

    /// solve() in two parts: first the watched columns, then all others. Watched are, with some more, the
    /// ends of all branches that had a curved law in the beginning.
    std::span<const double> solve_watched();
    std::span<const double> solve_others();
    bool is_watched(int branch) const;

    std::span<const double> potential() const { return is_back_ ? remembered_potential_ : potential_; }

    /// Solves, and remembers everything as it is then; go_back() takes back all that came after, to the bit.
    void remember();
    void go_back();

    /// What the network measures between the ends of each of these branches, the branch itself being part of
    /// it, where every branch is the straight line last solved for; `ohm` has one element for each.
    void resistances(std::span<const int> of, std::span<double> ohm) const;

    /// Potential by column per ampere that flows in at the first end of a branch and out at its second, over
    /// the same straight lines; then 0 for the body. `volt` has columns() + 1 elements.
    void spread(int branch, std::span<double> volt) const;

    const Elimination& elimination() const { return elimination_; }
    int columns() const { return elimination_.pattern().columns(); }
    int column(int node) const { return node == kBody ? columns() : elimination_.column(node); }

    /// Columns a branch joins; both equal if it lies between a node and itself.
    struct Ends {
        int from = 0;
        int to = 0;
    };
    const Ends& ends(int branch) const { return ends_[at(branch)]; }
    int branches() const { return static_cast<int>(ends_.size()); }

  private:
    void find_ends(std::span<const Branch> branches);
    void list_branches_by_slot();
    void put(int branch, Tie line);
    void note(int branch);
    void mark(int slot);
    void forget_shifts();
    void sum(int slot);
    void update();

    Elimination elimination_;
    std::vector<Ends> ends_;
    std::vector<int> slot_;  ///< per branch, -1 if it joins a node to itself
    std::vector<Tie> line_;  ///< per branch
    std::vector<char> carries_;
    std::vector<int> by_slot_start_;
    std::vector<int> by_slot_;
    std::vector<int> changed_;  ///< slots to be summed anew
    std::vector<char> is_changed_;
    std::vector<double> potential_;
    // Empty until a source is shifted:
    std::vector<double> shifted_a_;  ///< per branch, what its source is more than was eliminated
    std::vector<char> is_shifted_;
    std::vector<int> shifted_;    ///< those branches
    std::vector<double> flow_a_;  ///< per column, and the body; 0 between calls

    struct Replaced {
        int branch = 0;
        Tie line;
    };
    bool remembers_ = false;
    std::vector<Replaced> replaced_;  ///< since remember(), in that order
    std::vector<double> remembered_potential_;
    bool is_back_ = false;  ///< nothing was solved since go_back()
};

}  // namespace halfsplit::network
