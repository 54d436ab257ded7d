#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace halfsplit::network {

/// A conductance between two nodes; several may join the same two. Both are 0 … node_count-1 and differ.
struct Coupling {
    int a = 0;
    int b = 0;
};

/// Solves the nodal equations of a conductance network against the body, without a single subtraction.
///
/// The nodal matrix is never formed. Kept instead are the conductances between nodes and each node's
/// conductance to the body; eliminating a node k with neighbours j turns its star into a mesh: with d =
/// to_body(k) + sum of g(k,j), g(i,j) += g(k,i) g(k,j) / d and to_body(j) += to_body(k) g(k,j) / d (star-mesh
/// transformation, Rosen 1924). All terms are positive, so every potential comes out with a relative error of
/// a few rounding units even where conductances span eighteen orders of magnitude, where textbook Cholesky
/// loses islands that hang on leakage alone (the same idea is known for Markov chains: Grassmann, Taksar,
/// Heyman 1985; both citations from memory).
///
/// Three steps: the constructor analyses structure; factor() computes everything from the present values,
/// update() only what the values set since then can reach, by summing anew, never by taking away;
/// potentials() substitutes back.
class Elimination {
  public:
    Elimination(int node_count, std::span<const Coupling> couplings);

    int node_count() const { return static_cast<int>(column_of_node_.size()); }

    // Values, in siemens >= 0 and amperes into the node. They count from the next factor() or update() on.
    void set_coupling(int coupling, double siemens);
    void set_to_body(int node, double siemens);
    void set_injection(int node, double amperes);

    void factor();
    /// The same as factor(), bit for bit, in time that grows with the elimination paths of what was set
    /// since. Falls back to factor() where that is quicker.
    void update();

    /// One potential a node, in volts. Nodes of an island without any way to the body are 0.
    void potentials(std::span<double> volts) const;

    /// How many separate islands have no way to the body: exactly the zero pivots.
    int islands() const { return islands_; }

    /// Off-diagonal entries of the factor, for those who compare orderings.
    std::size_t factor_entries() const { return row_.size(); }

  private:
    struct Contribution {  // column `column` adds to another through its entry `entry`
        int column;
        int entry;
    };

    void make_update_table();
    void eliminate(int column);
    void gather(int column);
    void take_pivot(int column);
    void touch(int column);
    void load_values();
    int entry_of(int column, int row) const;

    std::vector<int> column_of_node_;
    std::vector<int> node_of_column_;
    std::vector<int> start_;               // per column: its first entry; one more at the end
    std::vector<int> row_;                 // per entry: the later column it joins, ascending
    std::vector<int> parent_;              // per column: its first later neighbour, -1 at a root
    std::vector<int> contribution_start_;  // per column: what earlier columns add to it
    std::vector<Contribution> contributions_;
    bool has_update_table_ = false;
    std::vector<std::size_t> table_start_;  // per column, into update_target_
    std::vector<int> update_target_;        // for each pair of a column's entries: the entry it adds to

    std::vector<int> entry_of_coupling_;
    std::vector<int> coupling_start_;  // per entry: the couplings that make it up
    std::vector<int> couplings_of_entry_;

    std::vector<double> coupling_s_;
    std::vector<double> to_body_s_;   // per column, as set
    std::vector<double> injected_a_;  // per column, as set

    std::vector<double> entry_s_;          // per entry, after elimination of what comes before
    std::vector<double> gathered_body_s_;  // per column, likewise
    std::vector<double> gathered_a_;
    std::vector<double> inverse_pivot_;  // per column; 0 for an island's last node
    std::vector<double> share_;          // per entry: entry_s_ * inverse_pivot_

    std::vector<int> touched_;
    std::vector<bool> is_touched_;
    bool is_factored_ = false;
    int islands_ = 0;
};

}  // namespace halfsplit::network
