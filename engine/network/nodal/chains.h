#pragma once

#include <span>
#include <vector>

#include "engine/network/nodal/branch.h"

namespace halfsplit::network {

/// A network with every row of resistances in series taken as one branch. A wire between two plugs is such a
/// row with its contacts, so that of a vehicle's network less than half is left to solve. The current is the
/// same all along a row, and the potentials of its inner nodes follow from those of its ends.
///
/// What leaks from inner nodes (constants.h) is left out: 12 nA a node. Behind the 10 kilohm of a unit's
/// input that is 0.1 mV, a tenth of what a course may err by in a step.
class Chains {
  public:
    /// `may_join` says for each branch whether it is, and stays, a model::Resistance; it may open and close.
    Chains(int node_count, std::span<const Branch> branches, std::span<const char> may_join);

    // What is left to solve.
    int node_count() const { return static_cast<int>(node_before_.size()); }
    const std::vector<Branch>& branches() const { return left_; }
    /// The node that a node that is left has been before.
    int node_before(int node) const {
        return node == kBody ? kBody : node_before_[static_cast<std::size_t>(node)];
    }

    /// Where a branch has gone to: the branch that is left, and +1 or -1 where it points along or against it.
    struct Place {
        int branch = 0;
        int sign = 1;
    };
    Place place(int branch) const { return places_[static_cast<std::size_t>(branch)]; }

    /// Where a node's potential lies: this share of the way from one node that is left to the other.
    struct Spot {
        int from = kBody;
        int to = kBody;
        double share = 0;
    };
    const Spot& spot(int node) const { return spots_[static_cast<std::size_t>(node)]; }

    /// Keeps branches() and spots up to date; the branch that is left and has changed is
    /// place(branch).branch.
    void set_law(int branch, const model::Law& law);
    void set_conducts(int branch, bool conducts);

  private:
    struct Link {
        int branch = 0;
        int before = 0;  ///< the node on the side where the row begins
    };
    using Row = std::vector<Link>;

    std::vector<Row> find_rows(std::span<const char> may_join) const;
    void keep(int branch);
    void join(const Row& row);
    void update_row(int left);

    std::vector<Branch> before_;
    std::vector<Branch> left_;
    std::vector<Row> row_of_left_;  ///< empty where it is a branch as it was
    std::vector<Place> places_;
    std::vector<Spot> spots_;
    std::vector<int> node_before_;
};

}  // namespace halfsplit::network
