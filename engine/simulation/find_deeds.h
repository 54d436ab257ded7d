#pragma once

#include <vector>

#include "engine/simulation/deed.h"
#include "engine/simulation/unit.h"
#include "engine/simulation/view_in_time.h"

namespace halfsplit::simulation {

/// Appends all that has to happen at the moment in view.
void find_deeds(const ViewInTime& view, const std::vector<Unit>& units, std::vector<Deed>& deeds);

/// When the next thing happens that depends on the clock alone; kNever where nothing does.
double next_appointment_s(const CourseState& state);

/// The largest current in what an oscillator watches.
double watched_a(const ViewInTime& view, const network::NetworkOscillator& oscillator);

/// Half a period of an oscillator, in s, with the quantity it follows as it is in view; kNever at rest.
double half_period_s(const network::NetworkOscillator& oscillator, const ViewInTime& view, bool hurries);

}  // namespace halfsplit::simulation
