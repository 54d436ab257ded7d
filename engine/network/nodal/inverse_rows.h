#pragma once

#include <functional>
#include <span>
#include <vector>

#include "engine/network/nodal/elimination.h"

namespace halfsplit::network {

/// Rows of the inverse of a grounded conductance matrix at some of its columns: the potentials of one column
/// per ampere into each of those.
///
/// A row follows from those of the columns that its own was coupled to when it was eliminated. All of them
/// lie on its way to the root of the elimination tree, so the tree is walked from its roots down, and what is
/// kept is one row for each step of the way: little, where all rows of a large network would not fit into any
/// cache.
class InverseRows {
  public:
    /// Borrows both.
    InverseRows(const Elimination& elimination, std::span<const int> columns);

    /// Calls `hear` for each column of the elimination. The rows of that column and of all that it was
    /// coupled to can be asked for then.
    void walk(const std::function<void(int column)>& hear);
    const double* row(int column) const { return rows_.data() + at(depth_[at(column)]) * columns_.size(); }

  private:
    void find_way();
    void find_flows();
    void fill(int column);

    /// An ampere into one of the columns flows into another on its way to the root, and comes to some volts
    /// there if all later ones stand at 0.
    struct Flow {
        int column = 0;
        std::size_t of = 0;
        double ohm = 0;
    };
    const Elimination& elimination_;
    std::span<const int> columns_;
    std::vector<int> way_;     ///< all columns, each before those that are eliminated into it
    std::vector<int> depth_;   ///< per column: steps from its root
    std::vector<Flow> flows_;  ///< by column
    std::vector<int> first_flow_;
    std::vector<double> rows_;  ///< per depth
};

}  // namespace halfsplit::network
