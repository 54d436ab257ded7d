#pragma once

#include <memory>

#include "engine/diagnosis/next_test/follow.h"
#include "engine/practice/fairness/expertise.h"

namespace halfsplit::practice {

/// How the best strategy we have goes about a scenario, from the complaint to the repair, on a nominal
/// vehicle.
struct BestWay {
    diagnosis::Diagnosis diagnosis;
    bool finds_it = false;  ///< the vehicle is in order in the end, and nothing was repaired in vain
    /// Those its steps speak of: the consultation's, and pairs that came under suspicion on the way.
    std::shared_ptr<const diagnosis::Hypotheses> hypotheses;

    double minutes() const { return diagnosis.minutes; }
};

/// The vehicle is settled anew for every reading: nothing is taken from the dictionary that the strategy
/// knows itself.
BestWay best_way(const Expertise& expertise);

}  // namespace halfsplit::practice
