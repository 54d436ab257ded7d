#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/diagnosis/dictionary/finding_places.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// Which findings go to and fro by themselves: the circuit is watched as it goes on from where it has
/// settled. None does in a circuit that does not live, or whose course comes to an error.
Pulses pulses_of(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<Finding>& findings);

/// Replaces what a row has for findings that pulse: for those that do in the sound vehicle by what Pulse
/// says, whatever they do here; for others that do so here, such as behind a control unit that takes its own
/// supply away and begins anew again and again, by what it says of their own pace. Open voltages: what pulses
/// is driven, and a voltmeter's 10 megohms do not move it. False where the circuit's course comes to an
/// error.
bool read_pulses(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<Finding>& findings, const FindingPlaces& places, const Pulses& pulses,
                 std::span<float> row);

}  // namespace halfsplit::diagnosis
