#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/next_test/choose.h"
#include "engine/practice/fairness/expertise.h"
#include "engine/practice/session/session.h"

namespace halfsplit::practice {

/// What somebody might have done instead.
struct Alternative {
    diagnosis::Choice choice;
};

/// One step of a session, seen from behind.
struct StepInHindsight {
    int entry = 0;             ///< index into the session's entries
    double bits = 0;           ///< by how much the suspects were narrowed down; below 0: it misled
    double expected_bits = 0;  ///< what could be expected of it before it was done
    /// Hypotheses that were left after it, those together that make nine tenths of all probability; the most
    /// probable first.
    std::vector<int> left;
    double belief = 0;  ///< in what is really wrong, after it
    /// It asked the vehicle something, and whatever was wrong, the answer would have been the same.
    bool could_tell_nothing = false;
    /// Nothing was wrong with the vehicle any more: what was done now was to make sure.
    bool was_in_order = false;
    /// The best that could have been done in its stead, where that would have told clearly more per minute,
    /// or it was time to repair.
    std::optional<Alternative> better;

    int suspects() const { return static_cast<int>(left.size()); }
};

struct Hindsight {
    int suspects_at_first = 0;           ///< from the complaint alone
    std::vector<StepInHindsight> steps;  ///< one per entry
    /// Those the steps speak of, see BestWay.
    std::shared_ptr<const diagnosis::Hypotheses> hypotheses;
};

using TellHindsight = std::function<void(int done, int of)>;

/// What every step of a session said about what may be wrong: the whole session is done again on vehicles
/// with each of the suspects the complaint leaves, and what they answer is compared. Whatever was measured
/// counts, with whatever instrument, plugged or not.
Hindsight hindsight_of(const Session& session, const Expertise& expertise, int threads = 2,
                       const TellHindsight& tell = {});

}  // namespace halfsplit::practice
