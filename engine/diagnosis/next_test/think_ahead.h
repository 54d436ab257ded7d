#pragma once

#include "engine/diagnosis/next_test/choose.h"

namespace halfsplit::diagnosis {

/// While somebody goes and takes the reading that was chosen there is time. The likeliest suspects that are
/// told as it stands, what would be repaired but for that, and promising pairs, are settled anew, in the
/// states that readings are from and in the next one's, so that nobody waits for it afterwards. One portion
/// of it, the most useful first, which takes up to a second for a whole vehicle; false where nothing was left
/// to do.
bool think_ahead(Hypotheses& hypotheses, const Ranking& ranking, const Choice& choice,
                 const Evidence& evidence);

/// What is thought ahead between two readings: nobody needs all of a minute to take one.
inline constexpr int kPortionsAhead = 4;

}  // namespace halfsplit::diagnosis
