#include "engine/tracing/protection.h"

#include <algorithm>

#include "engine/tracing/flood.h"

namespace halfsplit::tracing {

namespace {

/// Fed as wired, and not without the fuse: at one of these vertices at least, and kept at none.
bool is_lost(const std::vector<int>& vertices, const std::vector<bool>& fed,
             const std::vector<bool>& still_fed) {
    const auto in = [](const std::vector<bool>& flags) {
        return [&flags](int vertex) { return flags[static_cast<std::size_t>(vertex)]; };
    };
    return std::ranges::any_of(vertices, in(fed)) && std::ranges::none_of(vertices, in(still_fed));
}

}  // namespace

Protected protected_by(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                       const std::set<int>& branches) {
    FloodRules rules{.extent = Extent::as_wired, .sense = Sense::with_current};
    std::vector<bool> fed = flood(wiring, wiring.supplies(), rules);
    rules.barred_branches = branches;
    std::vector<bool> still_fed = flood(wiring, wiring.supplies(), rules);
    // Every flood ends in a ground; that a ground is reached says nothing about what hangs there.
    for (int vertex = 0; vertex < wiring.vertex_count(); ++vertex)
        if (wiring.grounds()[static_cast<std::size_t>(vertex)])
            fed[static_cast<std::size_t>(vertex)] = still_fed[static_cast<std::size_t>(vertex)] = false;
    Protected found;
    for (int branch = 0; branch < wiring.branch_count(); ++branch) {
        const network::NetworkBranch& each = wiring.branch(branch);
        if (each.source != network::BranchSource::wire) continue;
        if (is_lost({wiring.from(branch), wiring.to(branch)}, fed, still_fed))
            found.wires.push_back(each.wire);
    }
    for (const LoadGroup& load : loads)
        if (is_lost(load.terminals, fed, still_fed)) found.loads.push_back(load.name);
    return found;
}

}  // namespace halfsplit::tracing
