#pragma once

#include "engine/practice/fairness/best_way.h"
#include "engine/practice/verdict/hindsight.h"
#include "engine/practice/verdict/physics.h"
#include "engine/practice/verdict/verdict.h"

namespace halfsplit::practice {

/// All that is told when a session is over.
struct Debrief {
    Verdict verdict;
    BestWay best;
    Hindsight hindsight;
    Physics physics;
};

Debrief debrief_of(const Session& session, const Expertise& expertise, int threads = 2,
                   const TellHindsight& tell = {});

}  // namespace halfsplit::practice
