#pragma once

#include <vector>

#include "engine/practice/fairness/expertise.h"
#include "engine/practice/session/session.h"

namespace halfsplit::practice {

/// What the dictionary knows of the first state somebody brought the vehicle to, if nothing was done before
/// but to look: of a whole vehicle's suspects most would have shown something quite different there, and
/// need not be tried on a vehicle of their own, which takes a second for each. Borrows the circuit and the
/// dictionary.
class Foresight {
  public:
    Foresight(const Session& session, const Expertise& expertise);

    /// The entry that brought the vehicle to that state; -1 where nothing can be foreseen.
    int entry() const { return entry_; }

    /// Whether a vehicle with this fault (an index into the dictionary's) would have shown there so much else
    /// that it is out of the question, and would have looked like the sound one until then.
    bool rules_out(int fault) const;

  private:
    struct Seen {
        int finding = 0;
        int sign = 0;
    };
    void take(const Session& session);
    bool looks_sound_at_first(int row) const;

    const model::Circuit* circuit_;
    const diagnosis::Dictionary* dictionary_;
    int entry_ = -1;
    int state_ = -1;
    bool was_looked_at_first_ = false;
    int arrives_in_ = -1;  ///< of the dictionary's states
    std::vector<Seen> seen_;
};

}  // namespace halfsplit::practice
