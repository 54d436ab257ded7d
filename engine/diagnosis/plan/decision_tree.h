#pragma once

#include <vector>

#include "engine/diagnosis/plan/fault_table.h"

namespace halfsplit::diagnosis::plan {

/// Which test to do first, and for each outcome what next, until a group of faults is left that no test tells
/// apart.
struct DecisionTree {
    struct Branch {
        int outcome = 0;  ///< index into the test's outcomes
        int node = 0;
    };
    struct Node {
        int test = -1;                 ///< -1: nothing more to test, `faults` are left
        std::vector<Branch> branches;  ///< of a test: outcomes that can occur here, two and more, in order
        std::vector<int> faults;       ///< of an end: in the table's order
    };
    std::vector<Node> nodes;  ///< the first one is where to begin
};

/// Sum over all faults of the prior times the costs of the tests on the way to it, found by doing the tests
/// with each fault. Throws std::logic_error where the tree does not lead a fault to its own end.
double expected_cost(const FaultTable& table, const DecisionTree& tree);

}  // namespace halfsplit::diagnosis::plan
