#pragma once

#include <span>
#include <vector>

#include "engine/network/elimination.h"

namespace halfsplit::network {

/// Where a network's elimination puts what: the order of nodes, the pattern that fills in, and which coupling
/// adds to which entry. Columns are nodes in elimination order.
struct EliminationStructure {
    std::vector<int> column_of_node;
    std::vector<int> node_of_column;
    std::vector<int> start;  ///< per column: its first entry; one more at the end
    std::vector<int> row;    ///< per entry: the later column, ascending within a column
    std::vector<int> entry_of_coupling;
    std::vector<int> coupling_start;  ///< per entry, into couplings_of_entry; one more at the end
    std::vector<int> couplings_of_entry;
};

EliminationStructure analyse_elimination(int node_count, std::span<const Coupling> couplings);

}  // namespace halfsplit::network
