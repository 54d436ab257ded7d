#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/branch.h"

namespace halfsplit::network {

/// A solved network. Sizes: potential_v one per node, current_a one per branch (from -> to).
struct Solution {
    std::vector<double> potential_v;
    std::vector<double> current_a;
    double worst_residual_a = 0;  ///< largest sum of currents left over at a node
    double energy_mismatch_w =
        0;               ///< |power of the sources - power of all other branches and of the leakage|
    int iterations = 0;  ///< Newton steps (1 for a linear network)
};

/// No operating point: the node where Kirchhoff's current law is violated most, and by how much.
struct NoSolution {
    int node = kBody;
    double residual_a = 0;
    std::string reason;
};

/// Solves one network again and again: the structure (which nodes each branch joins) is fixed and analysed
/// once, the laws and the open/closed state of branches may change between solves.
class Solver {
  public:
    /// `branches` must name nodes below `node_count`; laws must be within the ranges engine/model/law.h
    /// states and have no zero resistance (merge those nodes first: what joins a node to itself is passed
    /// over). Breaking either is a std::invalid_argument.
    Solver(int node_count, std::span<const Branch> branches);
    ~Solver();
    Solver(Solver&&) noexcept;
    Solver& operator=(Solver&&) noexcept;

    void set_law(int branch, const model::Law& law);
    void set_conducts(int branch, bool conducts);

    /// The operating point. Starts from the last solution, if there was one.
    /// Kirchhoff holds at each node to 1e-9 A + 1e-9 of the largest current there, or NoSolution is returned.
    tl::expected<Solution, NoSolution> solve();

    /// Nodes with no path to the body through what conducts at the last solution (a blocking diode or an
    /// alternator that gives nothing does not): what a meter shows there is the meter's own doing.
    std::vector<int> floating_nodes() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace halfsplit::network
