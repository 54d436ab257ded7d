#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// What is the matter, as far as the evidence tells.
struct Ranking {
    std::vector<double> probability;   ///< one per hypothesis; all sum to 1, with other_pairs
    std::vector<int> order;            ///< hypotheses, the most probable first; equals as they are numbered
    bool single_explains = true;       ///< no more of the readings contradict the best single fault than
                                       ///< nonsense accounts for
    double other_pairs = 0;            ///< of all pairs that are no hypotheses, by the rough rule of pairs.h
    std::vector<FaultPair> promising;  ///< pairs worth being settled anew, the most promising first

    int best() const { return order.front(); }
};

/// Whether there is anything left to suspect, or that nothing is wrong, before any reading.
bool leaves_anything(const Hypotheses& hypotheses, const Evidence& evidence);

/// Bayes over all hypotheses. A reading is weighed by a normal distribution around what the hypothesis leads
/// to and a share of nonsense, evenly distributed, so that no single reading can exclude anything for good.
/// What a hypothesis says nothing about (NaN) leaves its weight as it is among those that do. The order of
/// the readings does not matter, and one written down twice counts once. Where no single fault explains them,
/// or few are left, pairs that might are added to the hypotheses, see pairs.h. Throws std::invalid_argument
/// for a reading of a state or finding that is not there or whose value is no number, or where nothing is
/// left to suspect.
Ranking rank(Hypotheses& hypotheses, const Evidence& evidence);

}  // namespace halfsplit::diagnosis
