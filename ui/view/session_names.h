#pragma once

#include <string>
#include <vector>

#include "engine/practice/scenario/scenario.h"
#include "engine/practice/session/action.h"

namespace halfsplit::view {

// What somebody who types an action is helped with.

/// "state", "set" … in the order of the help.
std::vector<std::string> verb_words();

/// All names an action can be about: instruments, states, quantities, wires, parts, their positions, points.
std::vector<std::string> names_in(const practice::Scenario& scenario, const model::Circuit& circuit);

}  // namespace halfsplit::view
