#include "engine/tracing/find_paths.h"

#include <algorithm>
#include <deque>
#include <optional>

namespace halfsplit::tracing {

namespace {

/// Branches looked at before the search gives up: a fraction of a second's work, thousands of times what a
/// vehicle's circuit takes.
constexpr long kMostWork = 20'000'000;

/// How a walk stands at a vertex: what it came through (-1 at the start) and how many loads that were.
struct Stand {
    int vertex = 0;
    int arrived_by = -1;
    int loads = 0;
};

class Finder {
  public:
    Finder(const Wiring& wiring, const PathRules& rules)
        : wiring_(wiring), rules_(rules), on_path_(static_cast<std::size_t>(wiring.vertex_count()), false) {}

    FoundRoutes from(int start) {
        open({start, -1, 0});
        while (!choices_.empty()) {
            if (choices_.back().empty()) {
                close();
                continue;
            }
            if (is_exhausted()) {
                found_.cut = true;
                break;
            }
            const Stand next = choices_.back().back();
            choices_.back().pop_back();
            route_.branches.push_back(next.arrived_by);
            open(next);
        }
        return std::move(found_);
    }

  private:
    bool is_exhausted() const {
        return static_cast<int>(found_.routes.size()) >= rules_.most || work_ > kMostWork;
    }

    void open(const Stand& stand) {
        on_path_[static_cast<std::size_t>(stand.vertex)] = true;
        route_.vertices.push_back(stand.vertex);
        if (stand.arrived_by >= 0 && rules_.targets[static_cast<std::size_t>(stand.vertex)])
            found_.routes.push_back(route_);
        choices_.push_back(promising(stand));
    }

    void close() {
        choices_.pop_back();
        on_path_[static_cast<std::size_t>(route_.vertices.back())] = false;
        route_.vertices.pop_back();
        if (!route_.branches.empty()) route_.branches.pop_back();
    }

    /// The ways on from which a target can still be reached, the farthest first (they are taken from the
    /// back). Where there is one way only, looking ahead would cost more than walking it.
    std::vector<Stand> promising(const Stand& stand) {
        std::vector<Stand> ways = ways_on(stand);
        std::erase_if(ways, [&](const Stand& way) { return breaks_with_path(way.arrived_by); });
        if (ways.size() < 2) return ways;
        std::vector<std::pair<int, Stand>> ranked;
        for (const Stand& way : ways)
            if (const auto distance = distance_to_target(way)) ranked.emplace_back(*distance, way);
        std::ranges::stable_sort(ranked, std::ranges::greater{}, &std::pair<int, Stand>::first);
        ways.clear();
        for (const auto& [distance, way] : ranked) ways.push_back(way);
        return ways;
    }

    bool breaks_with_path(int branch) const {
        if (wiring_.branch(branch).conducts_in.empty()) return false;
        return std::ranges::any_of(route_.branches,
                                   [&](int earlier) { return wiring_.exclude_each_other(branch, earlier); });
    }

    std::vector<Stand> ways_on(const Stand& stand) {
        std::vector<Stand> ways;
        if (stand.arrived_by >= 0 && wiring_.grounds()[static_cast<std::size_t>(stand.vertex)]) return ways;
        for (const int branch : wiring_.branches_at(stand.vertex)) {
            ++work_;
            const int next = wiring_.far_end(branch, stand.vertex);
            if (on_path_[static_cast<std::size_t>(next)] || is_barred(branch, next)) continue;
            if (wiring_.exclude_each_other(branch, stand.arrived_by)) continue;
            if (const auto loads = loads_after(stand, branch)) ways.push_back({next, branch, *loads});
        }
        return ways;
    }

    bool is_barred(int branch, int next) const {
        return rules_.barred_branches.contains(branch) ||
               (!rules_.barred_vertices.empty() && rules_.barred_vertices[static_cast<std::size_t>(next)]);
    }

    /// How many loads the walk has gone through behind this branch; nullopt where it may not be taken.
    std::optional<int> loads_after(const Stand& stand, int branch) const {
        if (wiring_.role(branch) != Role::load) {
            if (!wiring_.passes(branch, stand.vertex, rules_.extent, rules_.sense)) return std::nullopt;
            return stand.loads;
        }
        if (rules_.extent == Extent::now && !wiring_.conducts_now(branch)) return std::nullopt;
        const int part = wiring_.branch(branch).part;
        if (rules_.only_through >= 0 && part != rules_.only_through) return std::nullopt;
        const bool still_inside = stand.arrived_by >= 0 && part >= 0 &&
                                  wiring_.role(stand.arrived_by) == Role::load &&
                                  wiring_.branch(stand.arrived_by).part == part;
        const int loads = stand.loads + (still_inside ? 0 : 1);
        return loads <= rules_.loads ? std::optional(loads) : std::nullopt;
    }

    std::size_t walk_index(int branch, int vertex_before, int loads) const {
        const auto directed =
            2 * static_cast<std::size_t>(branch) + (wiring_.from(branch) == vertex_before ? 0U : 1U);
        return directed * static_cast<std::size_t>(rules_.loads + 1) + static_cast<std::size_t>(loads);
    }

    std::optional<int> distance_to_target(const Stand& first) {
        std::vector<bool> walked(2 * static_cast<std::size_t>(wiring_.branch_count()) *
                                 static_cast<std::size_t>(rules_.loads + 1));
        std::deque<std::pair<int, Stand>> fronts{{0, first}};
        while (!fronts.empty()) {
            const auto [distance, stand] = fronts.front();
            fronts.pop_front();
            if (rules_.targets[static_cast<std::size_t>(stand.vertex)]) return distance;
            for (const Stand& next : ways_on(stand)) {
                const std::size_t walk = walk_index(next.arrived_by, stand.vertex, next.loads);
                if (walked[walk]) continue;
                walked[walk] = true;
                fronts.emplace_back(distance + 1, next);
            }
        }
        return std::nullopt;
    }

    const Wiring& wiring_;
    const PathRules& rules_;
    std::vector<bool> on_path_;
    Route route_;
    std::vector<std::vector<Stand>> choices_;  ///< one list per vertex of the route
    FoundRoutes found_;
    long work_ = 0;
};

}  // namespace

FoundRoutes find_paths(const Wiring& wiring, int start, const PathRules& rules) {
    return Finder(wiring, rules).from(start);
}

}  // namespace halfsplit::tracing
