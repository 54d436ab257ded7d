#pragma once

#include <functional>
#include <span>
#include <string>

#include <tl/expected.hpp>

#include "engine/practice/session/session.h"

namespace halfsplit::practice {

/// Steps done, out of how many.
using TellReplay = std::function<void(int done, int of)>;

/// Does again what was done in a session, from its beginning. An error: something cannot be done any more, or
/// the vehicle answers otherwise than it did; then the log was changed, or the program was.
tl::expected<void, std::string> replay(Session& session, std::span<const Entry> entries,
                                       const TellReplay& tell = {});

}  // namespace halfsplit::practice
