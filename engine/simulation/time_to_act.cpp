#include "engine/simulation/time_to_act.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"

namespace halfsplit::simulation {

namespace {

/// Of the current that makes it act at last, over that which does so in time.
double share_within(const model::Trigger& trigger, double seconds) {
    return trigger.heat_s > 0 ? std::sqrt(-std::expm1(-seconds / trigger.heat_s)) : 1;
}

}  // namespace

model::Trigger acting_within(model::Trigger trigger, double seconds) {
    trigger.rise /= share_within(trigger, seconds);
    return trigger;
}

void let_act_within(network::Network& network, double seconds) {
    for (network::NetworkTrigger& each : network.triggers)
        each.trigger = acting_within(each.trigger, seconds);
}

std::vector<int> held_for_now(const network::Network& network, double seconds,
                              const std::vector<int>& conditions, const network::Solution& solution) {
    std::vector<int> held;
    for (int i = 0; i < static_cast<int>(network.triggers.size()); ++i) {
        const network::NetworkTrigger& each = network.triggers[at(i)];
        if (each.trigger.heat_s <= 0 || conditions[at(each.part)] == each.trigger.above) continue;
        const double acts_at_last_a = each.trigger.rise * share_within(each.trigger, seconds);
        if (std::ranges::any_of(each.branches, [&](int branch) {
                return std::abs(solution.current_a[at(branch)]) >= acts_at_last_a;
            }))
            held.push_back(i);
    }
    return held;
}

}  // namespace halfsplit::simulation
