#include <algorithm>
#include <optional>

#include "engine/tracing/dependence.h"
#include "engine/tracing/flood.h"

namespace halfsplit::tracing {

namespace {

/// What every vertex is joined to.
struct Joined {
    std::vector<bool> fed;
    std::vector<bool> grounded;
};

Joined joined(const Wiring& wiring, const std::vector<bool>& supplies, const std::set<int>& barred,
              int parted_vertex) {
    FloodRules rules{.extent = Extent::now,
                     .sense = Sense::with_current,
                     .barred_branches = barred,
                     .barred_vertex = parted_vertex};
    Joined result;
    result.fed = flood(wiring, supplies, rules);
    for (int vertex = 0; vertex < wiring.vertex_count(); ++vertex)
        if (wiring.grounds()[static_cast<std::size_t>(vertex)])
            result.fed[static_cast<std::size_t>(vertex)] = false;
    rules.sense = Sense::against_current;
    result.grounded = flood(wiring, wiring.grounds(), rules);
    return result;
}

bool works(const LoadGroup& load, const Joined& joined) {
    for (const int fed : load.terminals)
        for (const int grounded : load.terminals)
            if (fed != grounded && joined.fed[static_cast<std::size_t>(fed)] &&
                joined.grounded[static_cast<std::size_t>(grounded)])
                return true;
    return false;
}

bool touches(const LoadGroup& load, const std::vector<bool>& vertices) {
    return std::ranges::any_of(load.terminals,
                               [&](int vertex) { return vertices[static_cast<std::size_t>(vertex)]; });
}

std::vector<LostLoad> difference(const std::vector<LoadGroup>& loads, const Joined& before,
                                 const Joined& after) {
    std::vector<LostLoad> lost;
    for (const LoadGroup& load : loads) {
        if (!works(load, before) || works(load, after)) continue;
        lost.push_back({load.name, load.part, !touches(load, after.fed), !touches(load, after.grounded), ""});
    }
    return lost;
}

/// The trigger by which a part drops out when this load of it is lost.
const network::NetworkTrigger* drop_out(const Wiring& wiring, const LoadGroup& load) {
    for (const network::NetworkTrigger& each : wiring.network().triggers) {
        if (each.part != load.part || each.trigger.observed == model::Observed::quantity) continue;
        if (each.trigger.fall < 0 || wiring.network().forced[static_cast<std::size_t>(each.part)]) continue;
        if (std::ranges::find_first_of(each.branches, load.branches) != each.branches.end()) return &each;
    }
    return nullptr;
}

}  // namespace

std::vector<LostLoad> lost_without(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                                   const std::set<int>& branches) {
    const std::vector<bool> supplies = ready_supplies(wiring);
    return difference(loads, joined(wiring, supplies, {}, -1), joined(wiring, supplies, branches, -1));
}

std::vector<LostLoad> lost_in_consequence(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                                          const std::set<int>& branches, int parted_vertex) {
    const std::vector<bool> supplies = ready_supplies(wiring);
    const Joined before = joined(wiring, supplies, {}, -1);
    std::vector<LostLoad> known =
        difference(loads, before, joined(wiring, supplies, branches, parted_vertex));
    const std::size_t direct = known.size();
    simulation::OperatingPoint changed = wiring.point();
    for (std::size_t next = 0; next < known.size(); ++next) {
        const auto group = std::ranges::find(loads, known[next].load, &LoadGroup::name);
        const network::NetworkTrigger* trigger = drop_out(wiring, *group);
        if (trigger == nullptr) continue;
        changed.conditions[static_cast<std::size_t>(trigger->part)] = trigger->trigger.below;
        const Wiring dropped(wiring.circuit(), wiring.network(), changed);
        for (LostLoad& lost : difference(loads, before, joined(dropped, supplies, branches, parted_vertex))) {
            if (std::ranges::find(known, lost.load, &LostLoad::load) != known.end()) continue;
            lost.because_of = wiring.circuit().parts[static_cast<std::size_t>(trigger->part)].id;
            known.push_back(std::move(lost));
        }
    }
    known.erase(known.begin(), known.begin() + static_cast<std::ptrdiff_t>(direct));
    return known;
}

}  // namespace halfsplit::tracing
