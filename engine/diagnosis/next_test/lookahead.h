#pragma once

#include <cstdint>
#include <memory>

#include "engine/diagnosis/next_test/outlook.h"

namespace halfsplit::diagnosis {

/// What to do first, and the minutes that are expected to pass until the vehicle is repaired.
struct Prospect {
    int test = -1;                 ///< of the outlook; -1: repair
    int group = -1;                ///< to repair, if that is first
    double minutes = 0;            ///< per unit of probability
    double minutes_repairing = 0;  ///< if repairing were first
    double minutes_testing = 0;    ///< if the best test were first; infinite where none tells anything
};

/// Plans for the groups of an outlook, each of which ends in a repair: a group is repaired as soon as that is
/// cheaper in expectation than any test, counting that a repair in vain costs its minutes and
/// Outlook::needless_min, after which one goes on. Rollout (Tu & Pattipati, IEEE SMC-A 33(1):86-99, 2003)
/// over a base rule, the most information per minute; as deep as the number of groups allows: where they are
/// a handful it is an exact search.
class Lookahead {
  public:
    Lookahead(const Outlook& outlook, const Bench& bench);
    ~Lookahead();

    Prospect best();

  private:
    class Search;
    std::unique_ptr<Search> search_;
};

}  // namespace halfsplit::diagnosis
