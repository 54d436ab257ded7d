#include "engine/tracing/live_path.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::tracing {

namespace {

double amount(const Wiring& wiring, int branch) {
    return std::abs(wiring.point().current_a[static_cast<std::size_t>(branch)]);
}

/// Follows the largest current from the last vertex of `route` on: the way it flows (`sign` 1) or the way it
/// comes from (-1). Stops at a source or a ground; a ring of currents cannot hold it, as it visits no vertex
/// twice.
void follow(const Wiring& wiring, double sign, std::vector<bool>& visited, Route& route) {
    while (true) {
        const int vertex = route.vertices.back();
        visited[static_cast<std::size_t>(vertex)] = true;
        if (wiring.grounds()[static_cast<std::size_t>(vertex)]) return;
        int best = -1;
        for (const int branch : wiring.branches_at(vertex)) {
            const bool is_back = visited[static_cast<std::size_t>(wiring.far_end(branch, vertex))] &&
                                 wiring.role(branch) != Role::source;
            const double current_a = sign * wiring.current_out(branch, vertex);
            if (is_back || current_a <= kNoCurrentA) continue;
            if (best < 0 || current_a > sign * wiring.current_out(best, vertex)) best = branch;
        }
        if (best < 0 || wiring.role(best) == Role::source) return;
        route.branches.push_back(best);
        route.vertices.push_back(wiring.far_end(best, vertex));
    }
}

int strongest(const Wiring& wiring, const auto& branches) {
    int best = -1;
    for (const int branch : branches)
        if (best < 0 || amount(wiring, branch) > amount(wiring, best)) best = branch;
    return best;
}

int branch_to_follow(const Wiring& wiring, const Start& start) {
    if (!start.own.empty()) return strongest(wiring, start.own);
    const int vertex = start.origins.front().vertex;
    const auto joined = wiring.branches_at(vertex);
    const auto contact =
        std::ranges::find_if(joined, [&](int branch) { return wiring.branch(branch).name == start.name; });
    return contact != joined.end() ? *contact : strongest(wiring, joined);
}

}  // namespace

std::optional<Path> live_path_through(const Wiring& wiring, int branch) {
    if (amount(wiring, branch) <= kNoCurrentA || wiring.from(branch) == wiring.to(branch))
        return std::nullopt;
    const bool forward = wiring.current_out(branch, wiring.from(branch)) > 0;
    const bool is_source = wiring.role(branch) == Role::source;
    const int enters_at = forward || is_source ? wiring.from(branch) : wiring.to(branch);
    const int leaves_at = is_source ? enters_at : wiring.far_end(branch, enters_at);
    std::vector<bool> visited(static_cast<std::size_t>(wiring.vertex_count()), false);
    visited[static_cast<std::size_t>(leaves_at)] = true;
    Route route{{}, {enters_at}};
    // Of a source only its positive terminal's side is a way: what it is charged from, or what it feeds.
    if (!is_source || forward) follow(wiring, -1, visited, route);
    std::ranges::reverse(route.branches);
    std::ranges::reverse(route.vertices);
    if (!is_source) {
        route.branches.push_back(branch);
        route.vertices.push_back(leaves_at);
    }
    if (!is_source || !forward) follow(wiring, 1, visited, route);
    return describe_path(wiring, route, false);
}

std::optional<Path> live_path(const Wiring& wiring, const Start& start) {
    if (start.own.empty() && start.origins.empty()) return std::nullopt;
    const int branch = branch_to_follow(wiring, start);
    if (branch < 0) return std::nullopt;
    return live_path_through(wiring, branch);
}

}  // namespace halfsplit::tracing
