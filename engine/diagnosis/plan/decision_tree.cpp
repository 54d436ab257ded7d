#include "engine/diagnosis/plan/decision_tree.h"

#include <algorithm>
#include <stdexcept>

namespace halfsplit::diagnosis::plan {
namespace {

double cost_of_finding(const FaultTable& table, const DecisionTree& tree, int fault) {
    double cost = 0;
    const DecisionTree::Node* node = &tree.nodes.at(0);
    while (node->test >= 0) {
        cost += table.tests[at(node->test)].cost;
        const auto branch = std::ranges::find(node->branches, table.outcome(fault, node->test),
                                              &DecisionTree::Branch::outcome);
        if (branch == node->branches.end()) throw std::logic_error("a decision tree lacks an outcome");
        node = &tree.nodes.at(at(branch->node));
    }
    if (!std::ranges::binary_search(node->faults, fault))
        throw std::logic_error("a decision tree leads a fault to another one's end");
    return cost;
}

}  // namespace

double expected_cost(const FaultTable& table, const DecisionTree& tree) {
    double sum = 0;
    for (int fault = 0; fault < static_cast<int>(table.faults.size()); ++fault)
        sum += table.faults[at(fault)].prior * cost_of_finding(table, tree, fault);
    return sum;
}

}  // namespace halfsplit::diagnosis::plan
