#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/base/index.h"

namespace halfsplit::diagnosis::plan {

/// Which outcome each test has with each fault: all that planning a test order needs to know. One fault is
/// present (or "no fault", which is a row like any other), and a test always shows the same with the same
/// fault.
struct FaultTable {
    struct Fault {
        std::string name;
        double prior = 0;  ///< probability that it is this one; all sum to 1
    };
    struct Test {
        std::string name;
        double cost = 1;                    ///< minutes, money or one a test; not negative
        std::vector<std::string> outcomes;  ///< what it can show, in order of appearance
    };
    std::vector<Fault> faults;
    std::vector<Test> tests;
    std::vector<int> cells;  ///< faults.size() rows of tests.size() indices into Test::outcomes

    int outcome(int fault, int test) const { return cells[at(fault) * tests.size() + at(test)]; }
};

/// Divides the priors by their sum. False, and nothing is changed, where the sum is 0.
bool normalise(FaultTable& table);

/// Faults that show the same in each of `tests`, in order of appearance; a fault that stands alone is a group
/// too.
std::vector<std::vector<int>> ambiguity_groups(const FaultTable& table, const std::vector<int>& tests);

/// The same with all tests of the table.
std::vector<std::vector<int>> ambiguity_groups(const FaultTable& table);

}  // namespace halfsplit::diagnosis::plan
