#pragma once

#include <optional>
#include <random>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/next_test/outlook.h"
#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/permitted.h"

namespace halfsplit::test {

/// A few faults of a circuit and a few tests that tell all of them apart, so few that the exact optimum is
/// known. Readings that limits do not keep apart are made one, and no reading is ever wrong: then diagnosing
/// is what tables of outcomes describe, and both have the same to go by.
struct SmallCase {
    diagnosis::Dictionary dictionary;  ///< NaN where a finding in a state is not among the tests
    diagnosis::Spread spread;
    diagnosis::Assumptions assumptions;
    diagnosis::Workshop workshop;
    diagnosis::Outlook outlook;  ///< the same as a table, a group a fault
};

/// So many faults, drawn by their rates from those that are noticed and told from each other; then the tests
/// that divide them best, until all are apart, and again from the beginning as far as there is
/// room. Of tests with the same outcomes only one is taken. Nothing where a hundred draws bring none.
std::optional<SmallCase> draw_small_case(const model::Circuit& circuit,
                                         const diagnosis::Hypotheses& hypotheses,
                                         const diagnosis::Spread& spread,
                                         const diagnosis::Permitted& permitted, int faults, int tests,
                                         std::mt19937_64& generator);

/// Expected minutes until the vehicle is repaired, following the tool's own advice for each of the faults.
double minutes_as_advised(const SmallCase& small);

}  // namespace halfsplit::test
