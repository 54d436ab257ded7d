#pragma once

#include "engine/simulation/chart/moment.h"
#include "engine/simulation/chart/select_transitions.h"

namespace halfsplit::simulation {

/// Takes the transitions: leaves states from the last of the file to the first, does what the transitions
/// say, enters states from the first to the last (SCXML appendix D).
void microstep(Moment& moment, const Transitions& enabled);

/// Enters the chart's initial states.
void enter_chart(Moment& moment);

/// Leaves all states for ever.
void leave_chart(Moment& moment);

}  // namespace halfsplit::simulation
