#include "engine/tracing/trace.h"

#include <algorithm>

#include "engine/tracing/live_path.h"

namespace halfsplit::tracing {

namespace {

/// The ways a vehicle's body is joined to its batteries: a few straps and cables.
constexpr int kMostBodyPaths = 8;

std::vector<Path> body_return(const Wiring& wiring, Extent extent) {
    PathRules rules;
    rules.extent = extent;
    rules.sense = Sense::with_current;
    rules.targets = wiring.grounds();
    rules.targets[static_cast<std::size_t>(wiring.body())] = false;
    rules.most = kMostBodyPaths;
    std::vector<Path> paths;
    for (const Route& route : find_paths(wiring, wiring.body(), rules).routes)
        paths.push_back(describe_path(wiring, route, false));
    return paths;
}

/// A whole part that is a fuse or breaker, or its element alone.
bool is_protection(const Wiring& wiring, const Start& start) {
    return std::ranges::any_of(start.own,
                               [&](int branch) { return wiring.role(branch) == Role::protection; });
}

void find_lost(const Wiring& wiring, const std::vector<LoadGroup>& loads, const Start& start, Trace& found) {
    const int parted = start.own.empty() ? start.origins.front().vertex : -1;
    const bool one_branch = start.own.size() == 1;
    if (parted == wiring.body()) return;  // the body does not fall apart
    if (parted >= 0)
        found.lost_if_open = Dependence(wiring, loads).lost_if_parts(parted);
    else if (one_branch)
        found.lost_if_open = Dependence(wiring, loads).lost_if_opens(*start.own.begin());
    else
        found.lost_if_open = lost_without(wiring, loads, start.own);
    found.lost_then = lost_in_consequence(wiring, loads, start.own, parted);
}

}  // namespace

tl::expected<Trace, std::string> trace(const model::Circuit& circuit, const network::Network& network,
                                       const simulation::OperatingPoint& point, const std::string& name,
                                       const PathLimits& limits) {
    const Wiring wiring(circuit, network, point);
    const auto start = find_start(wiring, name);
    if (!start) return tl::unexpected(start.error());
    const std::vector<LoadGroup> loads = load_groups(wiring);
    Trace found;
    found.name = name;
    found.subject = start->subject;
    found.extent = limits.extent;
    if (start->part >= 0) {
        found.title = circuit.parts[static_cast<std::size_t>(start->part)].title;
        found.place = place_title(circuit, start->part);
    }
    found.sides = side_paths(wiring, *start, limits);
    found.body_return = body_return(wiring, limits.extent);
    found.live = live_path(wiring, *start);
    found.back_feeds = back_feeds(wiring, loads);
    found.sharing = sharing(wiring, loads, *start);
    if (is_protection(wiring, *start)) found.protects = protected_by(wiring, loads, start->own);
    if (!start->origins.empty()) find_lost(wiring, loads, *start, found);
    return found;
}

tl::expected<Connection, std::string> trace_between(const model::Circuit& circuit,
                                                    const network::Network& network,
                                                    const simulation::OperatingPoint& point,
                                                    const std::string& from, const std::string& to,
                                                    const PathLimits& limits) {
    const Wiring wiring(circuit, network, point);
    const auto start = find_start(wiring, from);
    if (!start) return tl::unexpected(start.error());
    const auto goal = find_start(wiring, to);
    if (!goal) return tl::unexpected(goal.error());
    Connection connection{from, to, limits.extent, {}, false};
    connection.paths = paths_between(wiring, *start, *goal, limits, connection.cut);
    return connection;
}

}  // namespace halfsplit::tracing
