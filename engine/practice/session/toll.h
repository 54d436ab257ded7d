#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "engine/practice/session/action.h"

namespace halfsplit::practice {

/// Places of the vehicle that have been got at: one per place of the circuit. What is open stays open.
using OpenPlaces = std::vector<char>;

/// Minutes that an action takes: getting at its places where they are not open yet, and the work itself (see
/// diagnosis::Effort, whose figures the best strategy is reckoned with too). `seconds` went by in the
/// vehicle. Opens the places.
double toll_of(const model::Circuit& circuit, const Action& action, double seconds, OpenPlaces& open);

/// Where somebody has to be for it: indices into the circuit's places.
std::vector<int> places_of(const model::Circuit& circuit, const Action& action);

}  // namespace halfsplit::practice
