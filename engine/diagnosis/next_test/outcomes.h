#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/suspects/hypotheses.h"

namespace halfsplit::diagnosis {

/// Those of the hypotheses asked about that lead to about the same reading.
struct Outcome {
    double low = 0;  ///< least and largest mean of its members, V or A; of a sign, its number
    double high = 0;
    double probability = 0;    ///< of the members together
    std::vector<int> members;  ///< indices into the list asked about
};

/// What a test may show: its outcomes, rising. Neighbours whose limits overlap are one outcome, as far as it
/// is not wider than the limits of its lowest. A hypothesis that says nothing is a member of the most
/// probable one.
std::vector<Outcome> outcomes_of(const Hypotheses& hypotheses, std::span<const int> asked,
                                 std::span<const double> probability, const Test& test);

/// Expected information in bits about which hypothesis it is: the mutual information with what the reading is
/// taken for, where a reading is taken for the nearest of what the hypotheses lead to, errors and nonsense
/// included. Never below 0; 0 only if all that say anything lead to the same. `probability` need not sum to
/// 1: it is taken as shares of its sum.
double information_bits(const Hypotheses& hypotheses, std::span<const int> asked,
                        std::span<const double> probability, const Test& test);

}  // namespace halfsplit::diagnosis
