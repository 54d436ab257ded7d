#pragma once

#include <string>

#include "engine/instruments/instrument.h"
#include "engine/simulation/settle.h"

namespace halfsplit::view {

/// One JSON object: circuit, state, faults, points, currents, floating, conditions.
std::string settled_json(const model::Circuit& circuit, const std::string& state,
                         const simulation::Settled& settled);

/// One JSON object: instrument, at, against, value (null where it is no reading), low, high, unit, shown,
/// cautions.
std::string reading_json(const instruments::Reading& reading);

}  // namespace halfsplit::view
