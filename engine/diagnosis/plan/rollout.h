#pragma once

#include "engine/diagnosis/plan/one_step.h"

namespace halfsplit::diagnosis::plan {

/// Rollout over the one-step rule (Tu & Pattipati, IEEE SMC-A 33(1):86-99, 2003): each test is judged by its
/// cost and the expected cost of going on by the one-step rule behind it. Never dearer than the one-step
/// rule, as its own choice is among those judged and wins where none is better. Of many tests it judges, at
/// each place, as many of those the one-step rule likes best as leave the work bearable: 64 of a table of 200
/// by 150, and never below 8.
DecisionTree rollout_tree(const SearchSpace& space, const TellEnds& tell);

}  // namespace halfsplit::diagnosis::plan
