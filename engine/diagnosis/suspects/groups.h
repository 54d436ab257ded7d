#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/permitted.h"

namespace halfsplit::diagnosis {

/// Whether some permitted reading decides between two hypotheses by itself (are_told_apart()).
bool can_be_told_apart(const Hypotheses& hypotheses, int one, int other, const Permitted& permitted);

/// Groups that no permitted finding in any permitted state can tell apart. The first of each group stands for
/// it: each of `members` (best the most probable first) joins the first group whose first member it cannot
/// be told from, or begins its own. Pairs must have been predicted in all permitted states.
std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const std::vector<int>& members,
                                               const Permitted& permitted);

/// Of all hypotheses, as they are numbered.
std::vector<std::vector<int>> ambiguity_groups(const Hypotheses& hypotheses, const Permitted& permitted);

}  // namespace halfsplit::diagnosis
