#include "engine/diagnosis/sheet/walk.h"

#include <algorithm>
#include <deque>
#include <functional>
#include <iterator>
#include <limits>
#include <queue>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

using tracing::Extent;
using tracing::Role;
using tracing::Sense;

namespace {

/// More than any way through wires and contacts has steps.
constexpr double kStepsOfLoad = 1000;

}  // namespace

bool is_ground_point(const model::Part& part) {
    return model::is_one_point(part) && part.kind->letter == "E";
}

Walk::Walk(const tracing::Wiring& wiring)
    : wiring_(wiring),
      ground_steps_(at(wiring.vertex_count()), -1),
      depths_(at(wiring.vertex_count()), std::numeric_limits<double>::infinity()),
      last_contact_(at(wiring.vertex_count()), -1),
      fuses_(at(wiring.vertex_count()), -1),
      ranks_(at(wiring.vertex_count()), wiring.vertex_count()),
      grounds_(at(wiring.vertex_count())) {
    find_ground_steps();
    find_depths();
    find_ranks();
    find_grounds();
}

void Walk::find_ground_steps() {
    std::deque<int> open;
    for (int vertex = 0; vertex < wiring_.vertex_count(); ++vertex) {
        if (!wiring_.grounds()[at(vertex)]) continue;
        ground_steps_[at(vertex)] = 0;
        open.push_back(vertex);
    }
    while (!open.empty()) {
        const int vertex = open.front();
        open.pop_front();
        for (const int branch : wiring_.branches_at(vertex)) {
            const int next = wiring_.far_end(branch, vertex);
            const Role role = wiring_.role(branch);
            if ((role != Role::conductor && role != Role::connection) || ground_steps_[at(next)] >= 0)
                continue;
            ground_steps_[at(next)] = ground_steps_[at(vertex)] + 1;
            open.push_back(next);
        }
    }
}

bool Walk::leads_on(int branch, int vertex) const {
    const int steps = ground_steps_[at(vertex)];
    const int steps_there = ground_steps_[at(wiring_.far_end(branch, vertex))];
    if (steps >= 0 && (steps_there < 0 || steps_there >= steps)) return false;
    return wiring_.role(branch) == Role::load ||
           (wiring_.passes(branch, vertex, Extent::as_wired, Sense::with_current) &&
            !wiring_.exclude_each_other(branch, last_contact_[at(vertex)]));
}

/// Away from supply, or nearer to ground.
bool Walk::leads_away(int branch, int vertex) const {
    const int next = wiring_.far_end(branch, vertex);
    return leads_on(branch, vertex) && (ground_steps_[at(next)] >= 0 || depth(next) > depth(vertex));
}

/// Shortest ways from all supplies (Dijkstra 1959). No ground is passed.
void Walk::find_depths() {
    using Entry = std::pair<double, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (int vertex = 0; vertex < wiring_.vertex_count(); ++vertex)
        if (wiring_.supplies()[at(vertex)]) open.emplace(depths_[at(vertex)] = 0, vertex);
    while (!open.empty()) {
        const auto [depth, vertex] = open.top();
        open.pop();
        if (depth > depths_[at(vertex)]) continue;
        settled_.push_back(vertex);
        if (wiring_.grounds()[at(vertex)]) continue;
        for (const int branch : wiring_.branches_at(vertex)) {
            if (!leads_on(branch, vertex)) continue;
            const int next = wiring_.far_end(branch, vertex);
            const double there = depth + (wiring_.role(branch) == Role::load ? kStepsOfLoad : 1);
            if (there >= depths_[at(next)]) continue;
            depths_[at(next)] = there;
            const bool is_fuse = wiring_.role(branch) == Role::protection;
            fuses_[at(next)] = is_fuse ? wiring_.branch(branch).part : fuses_[at(vertex)];
            const bool is_contact = wiring_.role(branch) == Role::contact;
            last_contact_[at(next)] = is_contact ? branch : last_contact_[at(vertex)];
            open.emplace(there, next);
        }
    }
}

/// Depth first, only ever away from supply.
void Walk::find_ranks() {
    int rank = 0;
    std::vector<int> open;  // what comes last is taken first
    std::ranges::copy_if(settled_, std::back_inserter(open),
                         [&](int vertex) { return wiring_.supplies()[at(vertex)]; });
    std::ranges::reverse(open);
    std::vector<bool> visited(ranks_.size(), false);
    while (!open.empty()) {
        const int vertex = open.back();
        open.pop_back();
        if (visited[at(vertex)]) continue;
        visited[at(vertex)] = true;
        ranks_[at(vertex)] = rank++;
        if (wiring_.grounds()[at(vertex)]) continue;
        const std::size_t before = open.size();
        for (const int branch : wiring_.branches_at(vertex))
            if (leads_away(branch, vertex)) open.push_back(wiring_.far_end(branch, vertex));
        std::reverse(open.begin() + static_cast<std::ptrdiff_t>(before), open.end());
    }
}

/// Each after all it leads to: what is joined to ground first, from there backwards.
void Walk::find_grounds() {
    std::vector<int> order(settled_.rbegin(), settled_.rend());
    std::ranges::stable_sort(order, {}, [&](int vertex) {
        const int steps = ground_steps_[at(vertex)];
        return steps < 0 ? wiring_.vertex_count() : steps;
    });
    for (const int vertex : order) {
        if (wiring_.grounds()[at(vertex)]) continue;
        for (const int branch : wiring_.branches_at(vertex)) {
            const int next = wiring_.far_end(branch, vertex);
            const int part = wiring_.branch(branch).part;
            if (next == wiring_.body()) {
                if (part >= 0 && is_ground_point(wiring_.circuit().parts[at(part)]))
                    grounds_[at(vertex)].insert(part);
            } else if (leads_away(branch, vertex)) {
                grounds_[at(vertex)].insert(grounds_[at(next)].begin(), grounds_[at(next)].end());
            }
        }
    }
}

}  // namespace halfsplit::diagnosis
