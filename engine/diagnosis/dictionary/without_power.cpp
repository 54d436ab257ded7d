#include "engine/diagnosis/dictionary/without_power.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/model/driver_levels.h"

namespace halfsplit::diagnosis {

bool lets_go_without_power(const network::Network& network, std::vector<int>& conditions) {
    bool has_let_go = false;
    for (const network::NetworkDriver& driver : network.drivers) {
        const auto power = std::ranges::find(network.triggers, driver.part, &network::NetworkTrigger::part);
        const bool has_power =
            power == network.triggers.end() || conditions[at(driver.part)] != power->trigger.below;
        if (has_power || conditions[at(driver.slot)] == model::kDriverOff) continue;
        conditions[at(driver.slot)] = model::kDriverOff;
        has_let_go = true;
    }
    return has_let_go;
}

}  // namespace halfsplit::diagnosis
