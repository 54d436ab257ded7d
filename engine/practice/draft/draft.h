#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/practice/fairness/fairness.h"

namespace halfsplit::practice {

struct DraftOptions {
    int level = 1;
    int count = 1;
    std::uint64_t seed = 1;  ///< the same seed, the same drafts
    int tries_at_most = 2000;
};

/// A scenario nobody has edited yet, proved to be fair.
struct Draft {
    Scenario scenario;
    Fairness fairness;
};

/// How many faults were tried, and how many drafts there are by now.
using TellDraft = std::function<void(int tried, int found)>;

/// Proposes scenarios of one level from what can go wrong with a circuit and how often: each of another
/// ambiguity group, and as long as there are any, each with another symptom. The complaint says what visibly
/// goes wrong. Fewer than asked for where the circuit has no more. `consultation` is of this circuit and all
/// its faults.
std::vector<Draft> draft_scenarios(const model::Circuit& circuit,
                                   const std::shared_ptr<const diagnosis::Consultation>& consultation,
                                   const DraftOptions& options, const TellDraft& tell = {});

}  // namespace halfsplit::practice
