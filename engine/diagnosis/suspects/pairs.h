#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {

/// What pairs there are to be thought of.
struct PairsInView {
    std::vector<FaultPair> foremost;  ///< the most promising first
    /// Log of how probable all others are together, against the best single fault; -infinity where there are
    /// none.
    double log_others = 0;
};

/// Pairs that are worth working out: together, by a rough rule, they explain what neither does alone. A
/// reading counts as explained as well as the better of both explains it, or their changes against the sound
/// vehicle added up (as they do in a linear network); by a pair that was settled anew as that says. Two
/// faults of one thing, and what `evidence` has cleared, are no pair. `weights` are those of the evidence's
/// distinct readings.
PairsInView candidate_pairs(const Hypotheses& hypotheses, const Evidence& evidence,
                            const std::vector<Weights>& weights, int most);

/// By the same rule, of the foremost those that are at least `least_share` as probable as the best single
/// fault, though that may explain everything: two blown fuses look like the wire that feeds both. Not that
/// fault and another one: repairing it is right either way.
PairsInView rival_pairs(const Hypotheses& hypotheses, const Evidence& evidence,
                        const std::vector<Weights>& weights, int most, double least_share);

}  // namespace halfsplit::diagnosis
