#pragma once

#include <string>
#include <vector>

#include "engine/practice/session/action.h"
#include "engine/practice/session/serviced_vehicle.h"

namespace halfsplit::practice {

/// A caution that an action did not heed.
struct Slip {
    std::string what;  ///< "unplugged with the ignition on"
    std::string why;   ///< what that can do

    friend bool operator==(const Slip&, const Slip&) = default;
};

/// What an action did to heed no caution: judged from the vehicle before it, and what came of it. `before`
/// holds the actions that went before, for cautions about things done twice.
std::vector<Slip> slips_of(const ServicedVehicle& vehicle_before, const Action& action, const Effect& effect,
                           const std::vector<Action>& before);

}  // namespace halfsplit::practice
