#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// Pairs that are worth working out, the most promising first: together, by a rough rule, they explain what
/// neither does alone. A reading counts as explained as well as the better of both explains it, or their
/// changes against the sound vehicle added up (as they do in a linear network). Two faults of one thing, and
/// what `evidence` has cleared, are no pair.
std::vector<FaultPair> candidate_pairs(const Hypotheses& hypotheses, const Evidence& evidence, int most);

/// By the same rule, pairs that are at least `least_share` as probable as the best single fault, though that
/// may explain everything: two blown fuses look like the wire that feeds both. Not that fault and another
/// one: repairing it is right either way.
std::vector<FaultPair> rival_pairs(const Hypotheses& hypotheses, const Evidence& evidence, int most,
                                   double least_share);

}  // namespace halfsplit::diagnosis
