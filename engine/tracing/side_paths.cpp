#include "engine/tracing/side_paths.h"

#include <algorithm>

namespace halfsplit::tracing {

namespace {

enum class Side { supply, ground };

Side other(Side side) {
    return side == Side::supply ? Side::ground : Side::supply;
}

/// What was found from one terminal.
struct OriginPaths {
    Origin origin;
    FoundRoutes supply;
    FoundRoutes ground;

    FoundRoutes& of(Side side) { return side == Side::supply ? supply : ground; }
    const FoundRoutes& of(Side side) const { return side == Side::supply ? supply : ground; }
    bool has(Side side) const { return !of(side).routes.empty(); }
};

/// Looks in stages: first what conducts without a load between, then what would if contacts were closed, then
/// through one load.
class SideFinder {
  public:
    SideFinder(const Wiring& wiring, const Start& start, const PathLimits& limits)
        : wiring_(wiring), start_(start), limits_(limits) {
        for (const Origin& origin : start.origins) origins_.push_back({origin, {}, {}});
    }

    SidePaths find() {
        for (const Side side : {Side::supply, Side::ground})
            for (OriginPaths& each : origins_) search(each, side, limits_.extent, 0);
        if (start_.subject == Subject::point) find_far_side_of_point();
        if (limits_.extent == Extent::now) find_interrupted();
        find_through_loads();
        SidePaths found;
        found.to_supply = described(Side::supply, found.supply_cut);
        found.to_ground = described(Side::ground, found.ground_cut);
        return found;
    }

  private:
    const std::vector<bool>& targets(Side side) const {
        return side == Side::supply ? wiring_.supplies() : wiring_.grounds();
    }

    bool any_has(Side side, bool at_load_only) const {
        return std::ranges::any_of(origins_, [&](const OriginPaths& each) {
            return (each.origin.at_load || !at_load_only) && each.has(side);
        });
    }

    void search(OriginPaths& from, Side side, Extent extent, int loads) {
        if (targets(side)[static_cast<std::size_t>(from.origin.vertex)]) return;
        PathRules rules;
        rules.extent = extent;
        rules.sense = side == Side::supply ? Sense::against_current : Sense::with_current;
        rules.targets = targets(side);
        rules.barred_branches = start_.own;
        rules.loads = loads;
        rules.only_through = start_.through;
        rules.most = limits_.most_paths;
        if (loads > 0) rules.barred_vertices = way_to(other(side));
        from.of(side) = find_paths(wiring_, from.origin.vertex, rules);
    }

    /// The vertices of all paths to a side: no part of what hangs on the thing.
    std::vector<bool> way_to(Side side) const {
        std::vector<bool> vertices(static_cast<std::size_t>(wiring_.vertex_count()), false);
        for (const OriginPaths& each : origins_)
            for (const Route& route : each.of(side).routes)
                if (is_direct(route))
                    for (const int vertex : route.vertices) vertices[static_cast<std::size_t>(vertex)] = true;
        return vertices;
    }

    bool is_direct(const Route& route) const {
        return std::ranges::none_of(route.branches,
                                    [&](int branch) { return wiring_.role(branch) == Role::load; });
    }

    void find_interrupted() {
        for (const Side side : {Side::supply, Side::ground}) {
            const bool load_lacks = !any_has(side, true);
            for (OriginPaths& each : origins_) {
                const bool hangs_free = !each.has(Side::supply) && !each.has(Side::ground);
                const bool is_missing = each.origin.at_load ? load_lacks : start_.subject == Subject::point;
                if (!each.has(side) && (hangs_free || is_missing)) search(each, side, Extent::as_wired, 0);
            }
        }
    }

    /// A point gets to its other side through a load; of a part or wire, an end that has one side is known
    /// by it, and what else hangs there is none of its business.
    void find_through_loads() {
        for (const Side side : {Side::supply, Side::ground}) {
            const bool load_lacks = !any_has(side, true);
            for (OriginPaths& each : origins_) {
                if (each.has(side)) continue;
                if (start_.subject != Subject::point &&
                    (each.has(other(side)) || (each.origin.at_load && !load_lacks)))
                    continue;
                search(each, side, limits_.extent, 1);
            }
        }
        if (limits_.extent == Extent::now) find_interrupted_through_loads();
    }

    /// A fuse whose load is switched off: what it would feed.
    void find_interrupted_through_loads() {
        for (OriginPaths& each : origins_)
            for (const Side side : {Side::supply, Side::ground}) {
                const bool hangs_free = !each.has(Side::supply) && !each.has(Side::ground);
                const bool is_point = start_.subject == Subject::point && !each.has(side);
                if (!each.origin.at_load && (hangs_free || is_point)) search(each, side, Extent::as_wired, 1);
            }
    }

    /// A point that is on one side for certain: what conducts through its load comes before what would
    /// conduct if contacts were closed (a motor that two changeover relays reverse).
    void find_far_side_of_point() {
        for (OriginPaths& each : origins_)
            for (const Side side : {Side::supply, Side::ground})
                if (!each.has(side) && each.has(other(side))) search(each, side, limits_.extent, 1);
    }

    std::vector<Path> described(Side side, bool& cut) const {
        std::vector<Path> paths;
        for (const OriginPaths& each : origins_) {
            cut = cut || each.of(side).cut;
            for (const Route& route : each.of(side).routes) {
                if (static_cast<int>(paths.size()) == limits_.most_paths) {
                    cut = true;
                    return paths;
                }
                paths.push_back(describe_path(wiring_, route, side == Side::supply));
            }
        }
        return paths;
    }

    const Wiring& wiring_;
    const Start& start_;
    const PathLimits& limits_;
    std::vector<OriginPaths> origins_;
};

}  // namespace

SidePaths side_paths(const Wiring& wiring, const Start& start, const PathLimits& limits) {
    return SideFinder(wiring, start, limits).find();
}

std::vector<Path> paths_between(const Wiring& wiring, const Start& start, const Start& goal,
                                const PathLimits& limits, bool& cut) {
    PathRules rules;
    rules.targets.assign(static_cast<std::size_t>(wiring.vertex_count()), false);
    for (const Origin& origin : goal.origins) rules.targets[static_cast<std::size_t>(origin.vertex)] = true;
    rules.barred_branches = start.own;
    rules.barred_branches.insert(goal.own.begin(), goal.own.end());
    rules.most = limits.most_paths;
    std::vector<Path> paths;
    std::vector<Extent> extents{limits.extent};
    if (limits.extent == Extent::now) extents.push_back(Extent::as_wired);
    for (rules.loads = 0; rules.loads <= 1; ++rules.loads)
        for (const Extent extent : extents) {
            rules.extent = extent;
            for (const Origin& origin : start.origins) {
                const FoundRoutes found = find_paths(wiring, origin.vertex, rules);
                cut = cut || found.cut;
                for (const Route& route : found.routes) paths.push_back(describe_path(wiring, route, false));
            }
            if (!paths.empty()) return paths;
        }
    return paths;
}

}  // namespace halfsplit::tracing
