#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/next_test/outcomes.h"
#include "engine/diagnosis/suspects/permitted.h"

namespace halfsplit::diagnosis {

/// What may be the matter, with its probability: the same order in both.
struct Live {
    std::vector<int> hypotheses;
    std::vector<double> probability;
};

/// A rough value of information_bits() for every permitted test, as it costs a few nanoseconds per hypothesis
/// and test: each finding's values are counted in a few bins, none narrower than readings scatter. By state,
/// then by finding, as `permitted` has them.
std::vector<double> rough_bits(const Hypotheses& hypotheses, const Live& live, const Permitted& permitted);

/// Which of the tests, the best first, are worth looking at: `most` at most, and of those that divide what is
/// alive in the same way, by bins as above, the first `alike` before any more of them. A van has five hundred
/// points that tell with the engine running whether there is any supply, and they leave no room for the one
/// fuse.
std::vector<std::size_t> different_tests(const Hypotheses& hypotheses, const Live& live,
                                         const std::vector<Test>& tests, int alike, std::size_t most);

/// So many of them at most, drawn evenly from what is likely, each standing for as much as the next. All of
/// them, as they are, where there are no more.
Live thinned(const Live& live, std::size_t most);

}  // namespace halfsplit::diagnosis
