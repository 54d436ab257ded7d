#pragma once

#include <span>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/limits/observation.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// Less is what other loads do to the battery's voltage, and nothing that lights a lamp.
inline constexpr double kLeastSwingV = 0.5;

/// How long a circuit is watched: two rounds of the slowest interval a wiper switch has (common practice: 5
/// to 6 s).
inline constexpr double kWatchS = 12;
/// How often it is looked at meanwhile: not a whole part of any rate somebody would give a sender.
inline constexpr double kLookEveryS = 0.0073;

/// What pulses faster than this a digital voltmeter, which shows two to five readings a second (common
/// practice), shows the mean of.
inline constexpr double kFastHz = 4;

/// Between what a voltage goes to and fro.
struct Swing {
    double least_v = 0;
    double most_v = 0;
    int crossings = 0;    ///< of the middle between both
    bool pulses = false;  ///< it goes to and fro again and again, by more than anybody would overlook
};

/// Of voltages that were looked at one after the other (or currents, where `hardly_shown` says what a meter
/// of theirs hardly shows).
Swing swing_of(std::span<const double> volts, double hardly_shown = 0.002);

/// What goes to and fro slowly enough to be seen is found to be this while it is up: the middle one, by size,
/// of all looks that show clearly more than what it falls back to. The largest would be the inrush of a cold
/// lamp, and as much of it as a look happens to catch. `values`: one or more.
double while_up(std::span<const double> values);

/// Watches the circuit go on by itself from where it has settled: signals of senders, lamps that blink,
/// wipers at intervals. What merely moves on, such as a motor that comes to its end stop, does not pulse. One
/// per observation; none pulses in a circuit that does not live.
tl::expected<std::vector<Swing>, Diagnostics> watch(const model::Circuit& circuit,
                                                    const simulation::Settled& settled,
                                                    const std::vector<Observation>& observations);

}  // namespace halfsplit::diagnosis
