#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/simulation/course_state.h"

namespace halfsplit::simulation {

/// Reads what is to be set when, one line each: `TIME WHAT=VALUE`, a quantity also `TIME WHAT=VALUE over
/// SECONDS`. Times in s from the beginning; empty lines and what follows a `#` count nothing. Every line that
/// cannot be read is an error with its place.
tl::expected<std::vector<TimedSet>, Diagnostics> read_sets(std::string_view text, const std::string& file);

}  // namespace halfsplit::simulation
