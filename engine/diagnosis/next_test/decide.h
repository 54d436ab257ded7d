#pragma once

#include "engine/diagnosis/next_test/choose.h"

namespace halfsplit::diagnosis {

/// What is known, and what to do then.
struct Decision {
    Ranking ranking;
    Choice choice;
};

/// Settling anew takes tenths of a second for each of a whole vehicle, and dozens may be in question.
enum class Patience {
    somebody_waits,  ///< a little is settled; what is lacking then is, while one more test is taken
    until_settled,
};

/// rank() and choose(). Nobody repairs what is told as it stands: what choose() would have repaired is
/// settled anew first, in the states that readings are from, and both are asked again. Where that would have
/// somebody wait, the best test is chosen meanwhile, as long as there is any.
Decision decide(Hypotheses& hypotheses, const Evidence& evidence, const Workshop& workshop,
                const Bench& bench, const Permitted& permitted, Patience patience);

}  // namespace halfsplit::diagnosis
