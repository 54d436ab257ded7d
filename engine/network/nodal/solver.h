#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/nodal/branch.h"

namespace halfsplit::network {

/// A solved network. Sizes: potential_v one per node, current_a one per branch (from -> to).
struct Solution {
    std::vector<double> potential_v;
    std::vector<double> current_a;
    double worst_residual_a = 0;   ///< largest sum of currents left over at a node
    double energy_mismatch_w = 0;  ///< |power of the sources - power of all else, the leakage counted|
    int iterations = 0;            ///< Newton steps (1 for a linear network)

    double potential_at(int node) const {
        return node == kBody ? 0 : potential_v[static_cast<std::size_t>(node)];
    }
    /// From its first end to its second.
    double voltage_across(const Branch& branch) const {
        return potential_at(branch.from) - potential_at(branch.to);
    }
};

/// No operating point: the node where Kirchhoff's current law is violated most, and by how much; or, where it
/// holds, the node of the branch that did not settle.
struct NoSolution {
    int node = kBody;
    double residual_a = 0;
    std::string reason;
};

/// Solves one network again and again: the structure (which nodes each branch joins) is fixed and analysed
/// once, the laws and the open/closed state of branches may change between solves.
///
/// Every node leaks to the body by kLeakageSiemens (constants.h), so every node has a potential, also behind
/// an open contact. What holds (tests/network/accuracy_test.cpp, against 113-bit arithmetic):
///
/// Linear networks: worst error 1e-12 V, however far conductances lie apart and after any number of changes.
/// An island without a source stands at exactly 0 V. A source that floats with its island keeps its voltage,
/// and the island stands where the leakages of its nodes cancel (the mean of its potentials is 0), to the
/// same 1e-12 V.
///
/// Nonlinear networks: another Newton step would move no potential by more than kPotentialToleranceV, times
/// `slack` where one was asked for.
///
/// A change of one value redoes the elimination only on the path that depends on it, and gives to the bit
/// what solving anew would give for a linear network.
class Solver {
  public:
    /// `branches` must name nodes below `node_count`; laws must be within the ranges engine/model/law.h
    /// states and have no zero resistance (merge those nodes first: what joins a node to itself is passed
    /// over). Breaking either is a std::invalid_argument.
    Solver(int node_count, std::span<const Branch> branches, double slack = 1);
    ~Solver();
    Solver(Solver&&) noexcept;
    Solver& operator=(Solver&&) noexcept;

    void set_law(int branch, const model::Law& law);
    void set_conducts(int branch, bool conducts);

    /// The operating point. Starts from the last solution, if there was one.
    /// Kirchhoff holds at each node to 1e-9 A + 1e-9 of the largest current there, or NoSolution is returned.
    tl::expected<Solution, NoSolution> solve();
    /// The same into what may have been used before, whose memory serves again.
    tl::expected<void, NoSolution> solve_into(Solution& solution);

    /// What the network measures between the ends of each of these branches (whether they conduct or not)
    /// for something that hardly loads it, in ohm, at the last solution.
    void resistances(std::span<const int> branches, std::span<double> ohm) const;

    /// Potential of each node per ampere that flows in at the first end of a branch and out at its second,
    /// for currents that hardly load the network, at the last solution.
    void spread(int branch, std::vector<double>& potential_v_per_a) const;

    /// What stands for the curved laws just now: with the laws, all that the next solve() depends on. Another
    /// solver of the same network goes on from it exactly as this one would.
    std::span<const Tangent> tangents() const;
    /// False, and nothing done, where they are not one for each curved law.
    bool set_tangents(std::span<const Tangent> tangents);

    /// Remembers laws, states, lines and potentials as they now are. go_back() takes back all that changed
    /// since, as often as one likes: the next solve() goes on as the first after remember() would have. Where
    /// one change after the other is tried this is quicker than to change everything back. With a slack a try
    /// may stand on lines whose slopes are off by a few hundredths, which resistances() and spread() show;
    /// currents and potentials are as near as they always are.
    void remember();
    void go_back();

    /// Nodes with no path to the body through what conducts at the last solution (a blocking diode or an
    /// alternator that gives nothing does not): what a meter shows there is the meter's own doing.
    std::vector<int> floating_nodes() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace halfsplit::network
