#include "engine/tracing/back_feed.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/tracing/find_paths.h"
#include "engine/tracing/flood.h"
#include "engine/tracing/live_path.h"

namespace halfsplit::tracing {

namespace {

/// Paths as wired that are looked at for what is open in them.
constexpr int kPathsToExplain = 8;

/// Below this across a load its current is only what two ground points that are not quite alike exchange:
/// twice what a sound ground may drop under load (0.1 V, common practice).
constexpr double kWorthReportingV = 0.2;

/// What each vertex leads to as wired, without a load between.
struct Sides {
    std::vector<bool> feed;
    std::vector<bool> ground;

    bool is_feed_only(int vertex) const {
        return feed[static_cast<std::size_t>(vertex)] && !ground[static_cast<std::size_t>(vertex)];
    }
    bool is_ground_only(int vertex) const {
        return ground[static_cast<std::size_t>(vertex)] && !feed[static_cast<std::size_t>(vertex)];
    }
};

/// A branch of the load that carries current the wrong way, and at which of its ends that shows.
struct WrongWay {
    int branch = -1;
    bool enters_at_ground_side = false;
    bool leaves_at_feed_side = false;
};

double voltage_across(const Wiring& wiring, const LoadGroup& load) {
    double low_v = wiring.point().potential_at(wiring.node(load.terminals.front()));
    double high_v = low_v;
    for (const int terminal : load.terminals) {
        const double at_v = wiring.point().potential_at(wiring.node(terminal));
        low_v = std::min(low_v, at_v);
        high_v = std::max(high_v, at_v);
    }
    return high_v - low_v;
}

std::optional<WrongWay> wrong_way(const Wiring& wiring, const Sides& sides, const LoadGroup& load) {
    WrongWay found;
    if (load.terminals.empty() || voltage_across(wiring, load) < kWorthReportingV) return std::nullopt;
    for (const int branch : load.branches)
        for (const int terminal : load.terminals) {
            if (wiring.from(branch) != terminal && wiring.to(branch) != terminal) continue;
            const double into_load_a = wiring.current_out(branch, terminal);
            const bool enters = into_load_a > kNoCurrentA && sides.is_ground_only(terminal);
            const bool leaves = into_load_a < -kNoCurrentA && sides.is_feed_only(terminal);
            if (enters || leaves) found.branch = branch;
            found.enters_at_ground_side = found.enters_at_ground_side || enters;
            found.leaves_at_feed_side = found.leaves_at_feed_side || leaves;
        }
    return found.branch < 0 ? std::nullopt : std::optional(found);
}

void name_loads_on_route(const Wiring& wiring, BackFeed& back_feed) {
    for (const int part : back_feed.route.loads)
        if (part >= 0 && part != back_feed.part)
            back_feed.through.push_back(wiring.circuit().parts[static_cast<std::size_t>(part)].id);
}

/// What is open between a vertex and a terminal it leads to as wired.
void name_what_is_open(const Wiring& wiring, int vertex, bool to_supply, std::vector<std::string>& open) {
    PathRules rules;
    rules.extent = Extent::as_wired;
    rules.sense = to_supply ? Sense::against_current : Sense::with_current;
    rules.targets = to_supply ? wiring.supplies() : wiring.grounds();
    rules.most = kPathsToExplain;
    for (const Route& route : find_paths(wiring, vertex, rules).routes)
        for (const int branch : route.branches) {
            if (wiring.conducts_now(branch)) continue;
            const std::string& name = wiring.branch(branch).name;
            if (std::ranges::find(open, name) == open.end()) open.push_back(name);
        }
}

BackFeed describe(const Wiring& wiring, const LoadGroup& load, const WrongWay& found) {
    BackFeed back_feed;
    back_feed.load = load.name;
    back_feed.part = load.part;
    back_feed.current_a = std::abs(wiring.point().current_a[static_cast<std::size_t>(found.branch)]);
    back_feed.enters_at_ground_side = found.enters_at_ground_side;
    back_feed.leaves_at_feed_side = found.leaves_at_feed_side;
    back_feed.route = live_path_through(wiring, found.branch).value_or(Path{});
    name_loads_on_route(wiring, back_feed);
    for (const int terminal : load.terminals) {
        const double out_a = wiring.current_out(found.branch, terminal);
        const bool is_end = wiring.from(found.branch) == terminal || wiring.to(found.branch) == terminal;
        if (!is_end) continue;
        const bool leaves = out_a < 0;
        name_what_is_open(wiring, terminal, leaves,
                          leaves ? back_feed.open_to_supply : back_feed.open_to_ground);
    }
    return back_feed;
}

}  // namespace

std::vector<BackFeed> back_feeds(const Wiring& wiring, const std::vector<LoadGroup>& loads) {
    const Sides sides{
        flood(wiring, wiring.supplies(), {.extent = Extent::as_wired, .sense = Sense::with_current}),
        flood(wiring, wiring.grounds(), {.extent = Extent::as_wired, .sense = Sense::against_current})};
    std::vector<BackFeed> found;
    for (const LoadGroup& load : loads)
        if (const auto wrong = wrong_way(wiring, sides, load))
            found.push_back(describe(wiring, load, *wrong));
    return found;
}

}  // namespace halfsplit::tracing
