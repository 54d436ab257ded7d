#pragma once

#include <vector>

#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/next_test/outcomes.h"
#include "engine/diagnosis/suspects/permitted.h"
#include "engine/diagnosis/suspects/rank.h"

namespace halfsplit::diagnosis {

/// What to do next, and what it is good for: enough to say it in a sentence, "at X20.3 against body with the
/// step out: 12.3 V if one of these three, 0 V if one of those five; the sill is open already".
struct Choice {
    enum class Kind {
        test,
        repair,  ///< `group`; if it holds hypothesis 0, nothing is wrong with the vehicle
    };
    Kind kind = Kind::repair;

    /// Of a repair: the best there would be, in its stead.
    Test test;
    double minutes = 0;         ///< of the test, with getting there
    double bits = 0;            ///< expected information; 0 = there is no test that tells anything
    bool place_is_open = true;  ///< nothing has to be opened for it
    bool state_stands = true;   ///< the vehicle is in its state already
    /// What it may show, rising, and the hypotheses behind each, the most probable first.
    struct Split {
        double low = 0;
        double high = 0;
        double probability = 0;
        std::vector<int> hypotheses;
    };
    std::vector<Split> splits;
    bool is_meanwhile = false;  ///< `group` would be repaired, but that it is still to be settled anew
    bool has_test() const { return bits > 0; }

    /// Hypotheses no permitted reading tells apart, the most probable first: the group that is repaired, or
    /// would be if it were time.
    std::vector<int> group;
    double probability = 0;  ///< of the group

    /// Expected until the vehicle is repaired, going on from here; and if one repaired at once. NaN while too
    /// much is possible for a plan.
    double minutes_to_go = 0;
    double minutes_repairing_now = 0;
};

/// Decides between all permitted readings that were not taken yet, and repairing. While many hypotheses are
/// alive, the most information per minute, unless that would take longer than a repair in vain; once few
/// groups are left, the first step of a plan for the rest (lookahead.h). Pairs among the suspects are worked
/// out in all permitted states.
Choice choose(Hypotheses& hypotheses, const Ranking& ranking, const Evidence& evidence,
              const Workshop& workshop, const Bench& bench, const Permitted& permitted);

}  // namespace halfsplit::diagnosis
