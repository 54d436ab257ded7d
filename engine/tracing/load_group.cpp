#include "engine/tracing/load_group.h"

#include <algorithm>
#include <map>
#include <set>

namespace halfsplit::tracing {

namespace {

bool is_load_of(const Wiring& wiring, int branch, int part) {
    return wiring.role(branch) == Role::load && wiring.branch(branch).part == part;
}

/// No lead and no other element is joined there.
bool is_inside(const Wiring& wiring, int vertex, int part) {
    return vertex != wiring.body() && std::ranges::all_of(wiring.branches_at(vertex), [&](int branch) {
               return is_load_of(wiring, branch, part);
           });
}

void gather(const Wiring& wiring, int branch, std::set<int>& gathered, LoadGroup& group) {
    std::vector<int> open{branch};
    while (!open.empty()) {
        const int next = open.back();
        open.pop_back();
        if (!gathered.insert(next).second) continue;
        group.branches.push_back(next);
        for (const int vertex : {wiring.from(next), wiring.to(next)}) {
            if (is_inside(wiring, vertex, group.part)) {
                const auto inside = wiring.branches_at(vertex);
                open.insert(open.end(), inside.begin(), inside.end());
            } else if (std::ranges::find(group.terminals, vertex) == group.terminals.end()) {
                group.terminals.push_back(vertex);
            }
        }
    }
    std::ranges::sort(group.terminals);
}

/// Elements side by side, such as a coil and the resistor that protects its driver, live and die together.
void merge_side_by_side(std::vector<LoadGroup>& groups) {
    std::map<std::pair<int, std::vector<int>>, std::size_t> first_with;
    std::vector<LoadGroup> merged;
    for (LoadGroup& group : groups) {
        const auto [found, is_first] = first_with.try_emplace({group.part, group.terminals}, merged.size());
        if (is_first) {
            merged.push_back(std::move(group));
            continue;
        }
        std::vector<int>& branches = merged[found->second].branches;
        branches.insert(branches.end(), group.branches.begin(), group.branches.end());
    }
    groups = std::move(merged);
}

void name_groups(const Wiring& wiring, std::vector<LoadGroup>& groups) {
    for (LoadGroup& group : groups) {
        const model::Part& part = wiring.circuit().parts[static_cast<std::size_t>(group.part)];
        const auto of_part = std::ranges::count(groups, group.part, &LoadGroup::part);
        const bool does_more = part.kind->letter == "K" || part.kind->letter == "S";
        group.name = of_part == 1 && !does_more ? part.id : wiring.branch(group.branches.front()).name;
    }
}

}  // namespace

std::vector<LoadGroup> load_groups(const Wiring& wiring) {
    std::vector<LoadGroup> groups;
    std::set<int> gathered;
    for (int branch = 0; branch < wiring.branch_count(); ++branch) {
        const network::NetworkBranch& each = wiring.branch(branch);
        if (each.part < 0 || wiring.role(branch) != Role::load || wiring.is_shadowed(branch)) continue;
        if (gathered.contains(branch) || wiring.from(branch) == wiring.to(branch)) continue;
        groups.push_back({"", each.part, {}, {}});
        gather(wiring, branch, gathered, groups.back());
    }
    merge_side_by_side(groups);
    name_groups(wiring, groups);
    return groups;
}

}  // namespace halfsplit::tracing
