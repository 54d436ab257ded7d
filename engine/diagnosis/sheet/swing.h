#pragma once

#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/limits/observation.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// Less is what other loads do to the battery's voltage, and nothing that lights a lamp.
inline constexpr double kLeastSwingV = 0.5;

/// Between what a voltage goes to and fro.
struct Swing {
    double least_v = 0;
    double most_v = 0;
    bool pulses = false;  ///< it goes to and fro again and again, by more than anybody would overlook
};

/// Watches the circuit go on by itself from where it has settled: signals of senders, lamps that blink,
/// wipers at intervals. What merely moves on, such as a motor that comes to its end stop, does not pulse. One
/// per observation; none pulses in a circuit that does not live.
tl::expected<std::vector<Swing>, Diagnostics> watch(const model::Circuit& circuit,
                                                    const simulation::Settled& settled,
                                                    const std::vector<Observation>& observations);

}  // namespace halfsplit::diagnosis
