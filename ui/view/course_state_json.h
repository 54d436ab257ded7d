#pragma once

#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/simulation/course_state.h"

namespace halfsplit::view {

/// A course as it stands, to go on from later: one JSON object, every number to the last bit.
std::string saved_course(const model::Circuit& circuit, const simulation::CourseState& state);

/// The reverse. A message where the text is not such an object, or one of another circuit.
tl::expected<simulation::CourseState, std::string> read_saved_course(const model::Circuit& circuit,
                                                                     std::string_view text);

}  // namespace halfsplit::view
