#pragma once

#include <string_view>
#include <vector>

#include "engine/simulation/chart/moment.h"

namespace halfsplit::simulation {

using Transitions = std::vector<const model::chart::Transition*>;

/// SCXML 3.12.1: whether a descriptor (without its ".*") matches the event: the same tokens from the front.
bool matches(std::string_view descriptor, std::string_view event);

// SCXML appendix D: the optimal transition set. For each active atomic state in document order the first
// enabled transition of itself, else of the nearest ancestor that has one; of two that leave a state in
// common the one of the inner source goes before, else the earlier one.

Transitions select_eventless(Moment& moment);
Transitions select_for_event(Moment& moment, std::string_view event);

}  // namespace halfsplit::simulation
