#pragma once

#include <cstddef>
#include <vector>

#include "engine/diagnosis/plan/decision_tree.h"
#include "engine/diagnosis/plan/fault_table.h"

namespace halfsplit::diagnosis::plan {

/// What is still possible: numbers of classes, rising.
using ClassSet = std::vector<int>;

struct ClassSetHash {
    std::size_t operator()(const ClassSet& set) const;
};

/// A fault table as the searches see it: what no test tells apart is one class, tests that tell nothing are
/// gone, and of tests that divide the classes alike only the cheapest is left.
struct SearchSpace {
    struct Column {
        int test = 0;  ///< of the table
        double cost = 1;
        int outcome_count = 0;
        std::vector<int> outcomes;  ///< of each class, as the table numbers them
    };
    std::vector<std::vector<int>> faults;  ///< of each class
    std::vector<double> priors;            ///< of each class, rising: so a ClassSet is sorted by prior too
    std::vector<Column> columns;           ///< by cost, the cheapest first

    ClassSet all_classes() const;
    std::vector<int> all_columns() const;
    double prior_of(const ClassSet& set) const;

    /// The first, so the cheapest, column that tells two classes apart; there is one.
    int cheapest_between(int class_a, int class_b) const;
};

/// Throws std::invalid_argument where the table's sizes do not fit, or a prior or cost is no number from 0
/// up.
SearchSpace search_space(const FaultTable& table);

/// The end of a tree: one class, its faults.
DecisionTree::Node end_of(const SearchSpace& space, int class_index);

}  // namespace halfsplit::diagnosis::plan
