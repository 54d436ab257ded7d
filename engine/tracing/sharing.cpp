#include "engine/tracing/sharing.h"

#include <algorithm>
#include <array>
#include <map>

#include "engine/tracing/find_paths.h"
#include "engine/tracing/flood.h"
#include "engine/tracing/protection.h"
#include "engine/tracing/step.h"

namespace halfsplit::tracing {

namespace {

/// Paths as wired that are looked at for fuses and ground points.
constexpr int kPathsLookedAt = 16;

class Sharer {
  public:
    Sharer(const Wiring& wiring, const std::vector<LoadGroup>& loads, const Start& start)
        : wiring_(wiring),
          loads_(loads),
          start_(start),
          fed_(flood(wiring, wiring.supplies(), {.extent = Extent::as_wired})) {}

    std::vector<Sharing> all() {
        find_feed_lines();
        find_fuses();
        find_ground_points();
        return std::move(found_);
    }

  private:
    bool is_fed(int vertex) const {
        return fed_[static_cast<std::size_t>(vertex)] && !wiring_.grounds()[static_cast<std::size_t>(vertex)];
    }

    bool is_own(const LoadGroup& load) const {
        const bool same_part = load.part == start_.part && start_.subject != Subject::element;
        return same_part ||
               std::ranges::any_of(load.branches, [&](int branch) { return start_.own.contains(branch); });
    }

    void add(Common common, std::string through, std::string title, std::vector<std::string> loads) {
        if (!loads.empty())
            found_.push_back({common, std::move(through), std::move(title), std::move(loads)});
    }

    std::vector<std::string> loads_touching(const std::vector<bool>& vertices) const {
        std::vector<std::string> names;
        for (const LoadGroup& load : loads_)
            if (!is_own(load) && std::ranges::any_of(load.terminals, [&](int vertex) {
                    return vertices[static_cast<std::size_t>(vertex)];
                }))
                names.push_back(load.name);
        return names;
    }

    void find_feed_lines() {
        std::vector<bool> listed(static_cast<std::size_t>(wiring_.vertex_count()), false);
        for (const Origin& origin : start_.origins) {
            if (!is_fed(origin.vertex) || listed[static_cast<std::size_t>(origin.vertex)]) continue;
            std::vector<bool> line(static_cast<std::size_t>(wiring_.vertex_count()), false);
            line[static_cast<std::size_t>(origin.vertex)] = true;
            line = flood(wiring_, line,
                         {.extent = Extent::as_wired, .sense = Sense::either, .only_conductors = true});
            for (int vertex = 0; vertex < wiring_.vertex_count(); ++vertex) {
                const auto at = static_cast<std::size_t>(vertex);
                listed[at] = listed[at] || line[at];
                if (wiring_.grounds()[at]) line[at] = false;
            }
            add(Common::feed, name_of_line(line, origin.vertex), "", loads_touching(line));
        }
    }

    /// A splice on the line, where its wires part; else the point asked about.
    std::string name_of_line(const std::vector<bool>& line, int otherwise) const {
        const std::vector<std::string>& names = wiring_.network().node_names;
        for (std::size_t vertex = 0; vertex < names.size(); ++vertex) {
            const model::Part* part = line[vertex] ? wiring_.circuit().find_part(names[vertex]) : nullptr;
            if (part != nullptr && model::is_one_point(*part)) return names[vertex];
        }
        return names[static_cast<std::size_t>(otherwise)];
    }

    std::vector<Route> routes(bool to_supply) const {
        std::vector<Route> all;
        PathRules rules;
        rules.extent = Extent::as_wired;
        rules.sense = to_supply ? Sense::against_current : Sense::with_current;
        rules.targets = to_supply ? wiring_.supplies() : wiring_.grounds();
        rules.barred_branches = start_.own;
        rules.most = kPathsLookedAt;
        for (const Origin& origin : start_.origins)
            std::ranges::move(find_paths(wiring_, origin.vertex, rules).routes, std::back_inserter(all));
        return all;
    }

    std::string title_of(int part) const {
        return part < 0 ? "" : wiring_.circuit().parts[static_cast<std::size_t>(part)].title;
    }

    /// Fuses are elements of parts, always.
    const std::string& id_of(int part) const {
        return wiring_.circuit().parts[static_cast<std::size_t>(part)].id;
    }

    void find_fuses() {
        std::vector<int> fuses;
        for (const Route& route : routes(true))
            for (const int branch : route.branches)
                if (wiring_.role(branch) == Role::protection &&
                    std::ranges::find(fuses, branch) == fuses.end())
                    fuses.push_back(branch);
        for (const int fuse : fuses) {
            std::vector<std::string> others = protected_by(wiring_, loads_, {fuse}).loads;
            std::erase_if(others, [&](const std::string& name) {
                return is_own(*std::ranges::find(loads_, name, &LoadGroup::name));
            });
            add(Common::protection, id_of(wiring_.branch(fuse).part), title_of(wiring_.branch(fuse).part),
                std::move(others));
        }
    }

    /// Where a branch meets the body or a negative pole: the ground point by name.
    std::string ground_name(int branch) const {
        const int part = wiring_.branch(branch).part;
        if (part >= 0 && wiring_.branch(branch).source != network::BranchSource::wire &&
            wiring_.circuit().parts[static_cast<std::size_t>(part)].kind->pin_policy ==
                model::PinPolicy::single)
            return wiring_.circuit().parts[static_cast<std::size_t>(part)].id;
        const int ground = wiring_.grounds()[static_cast<std::size_t>(wiring_.to(branch))]
                               ? wiring_.to(branch)
                               : wiring_.from(branch);
        return point_at(wiring_, branch, ground);
    }

    bool touches_ground(int branch) const {
        return wiring_.from(branch) != wiring_.to(branch) &&
               (wiring_.grounds()[static_cast<std::size_t>(wiring_.from(branch))] ||
                wiring_.grounds()[static_cast<std::size_t>(wiring_.to(branch))]);
    }

    void find_ground_points() {
        std::vector<std::string> names;
        for (const Route& route : routes(false)) {
            const std::string name = ground_name(route.branches.back());
            if (name != "body" && std::ranges::find(names, name) == names.end()) names.push_back(name);
        }
        for (const std::string& name : names) {
            const model::Part* part = wiring_.circuit().find_part(name);
            add(Common::ground, name, part == nullptr ? "" : part->title,
                loads_touching(hanging_on_ground(name)));
        }
    }

    std::vector<bool> hanging_on_ground(const std::string& name) const {
        FloodRules rules{.extent = Extent::as_wired, .sense = Sense::against_current};
        for (int branch = 0; branch < wiring_.branch_count(); ++branch)
            if (touches_ground(branch) && ground_name(branch) != name) rules.barred_branches.insert(branch);
        std::vector<bool> hanging = flood(wiring_, wiring_.grounds(), rules);
        for (int vertex = 0; vertex < wiring_.vertex_count(); ++vertex)
            if (wiring_.grounds()[static_cast<std::size_t>(vertex)])
                hanging[static_cast<std::size_t>(vertex)] = false;
        return hanging;
    }

    const Wiring& wiring_;
    const std::vector<LoadGroup>& loads_;
    const Start& start_;
    std::vector<bool> fed_;
    std::vector<Sharing> found_;
};

}  // namespace

std::string_view common_name(Common common) {
    constexpr std::array<std::string_view, 3> kNames{"feed", "fuse", "ground"};
    return kNames[static_cast<std::size_t>(common)];
}

std::vector<Sharing> sharing(const Wiring& wiring, const std::vector<LoadGroup>& loads, const Start& start) {
    return Sharer(wiring, loads, start).all();
}

}  // namespace halfsplit::tracing
