#include "engine/simulation/time_to_act.h"

#include <cmath>

#include "engine/simulation/settle.h"

namespace halfsplit::simulation {

double duration_s(std::span<const model::StateStep> steps) {
    double sum_s = 0;
    double left_s = kAtTheEndS;
    for (const model::StateStep& step : steps) {
        const auto* rest = std::get_if<model::SettleStep>(&step);
        if (rest != nullptr) sum_s += rest->seconds;
        left_s = rest != nullptr ? 0 : kAtTheEndS;
    }
    return sum_s + left_s;
}

model::Trigger acting_within(model::Trigger trigger, double seconds) {
    if (trigger.heat_s > 0) trigger.rise /= std::sqrt(-std::expm1(-seconds / trigger.heat_s));
    return trigger;
}

void let_act_within(network::Network& network, double seconds) {
    for (network::NetworkTrigger& each : network.triggers)
        each.trigger = acting_within(each.trigger, seconds);
}

}  // namespace halfsplit::simulation
