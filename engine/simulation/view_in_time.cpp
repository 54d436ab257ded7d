#include "engine/simulation/view_in_time.h"

#include <algorithm>

namespace halfsplit::simulation {

double quantity_at(const network::Network& network, const CourseState& state, std::string_view id,
                   double time_s) {
    for (const Ramp& ramp : state.ramps) {
        if (ramp.quantity != id) continue;
        const double share = std::clamp((time_s - ramp.start_s) / (ramp.end_s - ramp.start_s), 0.0, 1.0);
        return ramp.from + share * (ramp.to - ramp.from);
    }
    const auto found = network.quantities.find(id);
    return found == network.quantities.end() ? 0 : found->second;
}

double ViewInTime::quantity(std::string_view id) const {
    return quantity_at(network_, state_, id, time_s_);
}

}  // namespace halfsplit::simulation
