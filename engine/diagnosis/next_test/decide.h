#pragma once

#include "engine/diagnosis/next_test/choose.h"

namespace halfsplit::diagnosis {

/// What is known, and what to do then.
struct Decision {
    Ranking ranking;
    Choice choice;
};

/// rank() and choose(). Nobody repairs what is told as it stands: what choose() would have repaired is
/// settled anew first, in the states that readings are from, and both are asked again.
Decision decide(Hypotheses& hypotheses, const Evidence& evidence, const Workshop& workshop,
                const Bench& bench, const Permitted& permitted);

}  // namespace halfsplit::diagnosis
