#pragma once

#include <cstdint>
#include <vector>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/next_test/outcomes.h"

namespace halfsplit::diagnosis {

/// What is left to decide, made hard: few groups of hypotheses, few tests, and which outcome each test has
/// with each group. What plans for the rest of a diagnosis are made on.
struct Outlook {
    struct Group {
        double probability = 0;
        double repair_min = 0;  ///< without getting at `place`
        int place = -1;
    };
    struct Way {
        Test test;
        double minutes = 0;  ///< without getting at `place` and bringing the vehicle to `state`
        int place = -1;
        int state = 0;
        int outcome_count = 0;
    };
    std::vector<Group> groups;
    std::vector<Way> tests;
    std::vector<std::uint8_t> cells;  ///< tests.size() rows of groups.size() outcomes
    std::vector<double> access_min;   ///< per place
    double state_min = 0;
    double needless_min = 0;

    int outcome(int test, int group) const { return cells[at(test) * groups.size() + at(group)]; }
};

}  // namespace halfsplit::diagnosis
