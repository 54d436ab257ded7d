#pragma once

#include <optional>

#include "engine/instruments/strip.h"
#include "engine/practice/session/session.h"

namespace halfsplit::window {

/// What the recorder's screen shows of a recording that was done on a vehicle as it stood before: as finely
/// as the recorder tells values apart, and no finer. nullopt of any other action.
std::optional<instruments::Strip> recorded_strip(const practice::ServicedVehicle& before,
                                                 const practice::Action& action);

}  // namespace halfsplit::window
