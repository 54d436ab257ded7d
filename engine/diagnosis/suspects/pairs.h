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

}  // namespace halfsplit::diagnosis
