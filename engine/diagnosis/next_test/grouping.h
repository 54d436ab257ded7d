#pragma once

#include <vector>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/next_test/outlook.h"
#include "engine/diagnosis/next_test/screening.h"

namespace halfsplit::diagnosis {

/// Makes a group's repair out of what is to be done for each of its members: they are looked at one after the
/// other, the cheapest per probability first (plan/repair_order.h), and the one that it is is repaired.
Outlook::Group repair_of_group(const Hypotheses& hypotheses, const std::vector<int>& group,
                               const std::vector<double>& probability, const Workshop& workshop,
                               const Bench& bench);

/// The tests among `tests` that groups are to be planned with, `most` at most: the first, as many as share
/// half of the room, then those that still divide what the ones before leave together.
std::vector<Test> dividing_tests(const Hypotheses& hypotheses, const std::vector<int>& firsts,
                                 const std::vector<Test>& tests, std::size_t most);

/// Hard outcomes of `tests` for groups, each of which is as its first member.
Outlook outlook_for(const Hypotheses& hypotheses, const std::vector<std::vector<int>>& groups,
                    const std::vector<double>& probability, const std::vector<Test>& tests,
                    const Workshop& workshop, const Bench& bench);

}  // namespace halfsplit::diagnosis
