#pragma once

#include <string>

#include "engine/practice/session/session.h"
#include "engine/practice/verdict/hindsight.h"

namespace halfsplit::practice {

/// Why the reading that told most was as it was: where the voltage is lost and why, and what that made of the
/// reading. Two sentences, worked out from the computed network at that moment; both empty where nothing
/// that a sound vehicle has otherwise was measured, or nothing is wrong.
struct Physics {
    std::string cause;
    std::string reading;
    int entry = -1;  ///< index into the session's entries
};

Physics physics_of(const Session& session, const Hindsight& hindsight);

}  // namespace halfsplit::practice
