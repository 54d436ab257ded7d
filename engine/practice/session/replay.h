#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/practice/session/session.h"

namespace halfsplit::practice {

/// Does again what was done in a session, from its beginning. An error: something cannot be done any more, or
/// the vehicle answers otherwise than it did; then the log was changed, or the program was.
tl::expected<void, std::string> replay(Session& session, const std::vector<Entry>& entries);

}  // namespace halfsplit::practice
