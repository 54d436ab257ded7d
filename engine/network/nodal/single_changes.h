#pragma once

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "engine/network/nodal/assembly.h"

namespace halfsplit::network {

/// One straight line of a network that is another, or one that was not there.
struct SingleChange {
    int branch = -1;  ///< of the assembly; -1: a new one between two nodes
    int from = kBody;
    int to = kBody;
    Tie line;  ///< what it becomes, see Assembly::set
};

/// What the potentials of a solved network of straight lines would be after each of many changes, one at a
/// time.
///
/// With z the potentials per ampere from one end of the changed branch to the other, r = e.z what the network
/// measures between them, u the voltage there, and the line changed by d siemens and s amperes, the
/// potentials become v - z (d u + s) / (1 + d r) (Sherman & Morrison, Ann. Math. Statist. 21, 1950). 1 + d r
/// goes to 0 where the change leaves an island. Where rounding could show in the ninth decimal place of a
/// volt, what is left of (d u + s) / (1 + d r) is found otherwise: of a branch that opens by what else holds
/// its ends (opening.h), else by eliminating anew along its path, which is exact.
class SingleChanges {
  public:
    /// Borrows what was solved last.
    SingleChanges(const Assembly& solved, std::span<const SingleChange> changes);

    /// Hears of a change the potentials of nodes[first], nodes[first + 1] … of those asked for; of each
    /// change and node once, in no order that matters.
    using Hear = std::function<void(int change, std::size_t first, std::span<const double> potential_v)>;
    void observe(std::span<const int> nodes, const Hear& hear) const;

    /// How many were eliminated anew.
    int doubted() const { return doubted_; }

  private:
    struct Quick {
        int change = 0;
        int from = 0;  ///< columns; Assembly::columns() for the body
        int to = 0;
        double current_a = 0;  ///< (d u + s) / (1 + d r)
    };
    double own(int column) const;
    double mutual(const SingleChange& change, int from, int to);
    void weigh(int index);
    double voltage_after(const SingleChange& change, int from, int to);
    void add_quick(int index, int from, int to, double current_a);
    void sort_by_column();
    void observe_quickly(std::span<const int> nodes, std::size_t first, const Hear& hear) const;
    void eliminate_anew(std::span<const int> nodes, const Hear& hear) const;

    const Assembly& solved_;
    std::vector<SingleChange> changes_;
    std::vector<double> inverse_;                 ///< Elimination::inverse_entries
    double largest_v_ = 0;                        ///< of all potentials
    std::map<int, std::vector<double>> columns_;  ///< of the inverse, for what no coupling joins
    std::vector<Quick> quick_;                    ///< by `from`
    std::vector<int> first_quick_;                ///< per column, and the body
    std::vector<int> wholly_anew_;                ///< changes whose every potential is
    std::optional<Assembly> anew_;                ///< a copy in which changes are tried
    int doubted_ = 0;
};

}  // namespace halfsplit::network
