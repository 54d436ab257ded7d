#include "engine/diagnosis/dictionary/without_power.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/model/driver_levels.h"

namespace halfsplit::diagnosis {

bool has_power(const network::Network& network, int unit, const std::vector<int>& conditions) {
    const auto power = std::ranges::find(network.triggers, unit, &network::NetworkTrigger::part);
    return power == network.triggers.end() || conditions[at(unit)] != power->trigger.below;
}

namespace {

/// True if any unit without power had an output on.
bool lets_go_without_power(const network::Network& network, std::vector<int>& conditions) {
    bool has_let_go = false;
    for (const network::NetworkDriver& driver : network.drivers) {
        if (has_power(network, driver.part, conditions) || conditions[at(driver.slot)] == model::kDriverOff)
            continue;
        conditions[at(driver.slot)] = model::kDriverOff;
        has_let_go = true;
    }
    return has_let_go;
}

}  // namespace

bool come_to_rest_with_power(const model::Circuit& circuit, const network::Network& network,
                             network::Solver& solver, simulation::Rest& rest) {
    do {
        if (!simulation::come_to_rest(network, circuit, solver, rest)) return false;
    } while (lets_go_without_power(network, rest.conditions));
    return true;
}

}  // namespace halfsplit::diagnosis
