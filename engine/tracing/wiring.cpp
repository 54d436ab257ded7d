#include "engine/tracing/wiring.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "engine/network/graph.h"
#include "engine/tracing/flood.h"

namespace halfsplit::tracing {

using network::NetworkBranch;

namespace {

/// One ends where the other begins: the high and the low side of a half-bridge.
bool in_series(const NetworkBranch& a, const NetworkBranch& b) {
    return a.electrical.to == b.electrical.from || b.electrical.to == a.electrical.from;
}

/// Of the part's condition alone, whatever faults do to it: an alternator that stands still supplies nothing,
/// a battery with a broken cell is still where a feed comes from.
bool is_at_work(const NetworkBranch& source, const std::vector<int>& conditions) {
    return source.part < 0 || source.conducts_in.empty() ||
           std::ranges::find(source.conducts_in, conditions[static_cast<std::size_t>(source.slot)]) !=
               source.conducts_in.end();
}

}  // namespace

Wiring::Wiring(const model::Circuit& circuit, const network::Network& network,
               const simulation::OperatingPoint& point)
    : circuit_(circuit), network_(network), point_(point) {
    find_roles();
    shadow_laws_not_at_work();
    list_branches();
    find_terminals();
}

const NetworkBranch& Wiring::branch(int index) const {
    return network_.branches[static_cast<std::size_t>(index)];
}

double Wiring::current_out(int branch, int vertex) const {
    const double current_a = point_.current_a[static_cast<std::size_t>(branch)];
    return from(branch) == vertex ? current_a : -current_a;
}

std::span<const int> Wiring::branches_at(int vertex) const {
    return branches_at_[static_cast<std::size_t>(vertex)];
}

bool Wiring::passes(int branch, int from_vertex, Extent extent, Sense sense) const {
    if (extent == Extent::now && !conducts_now(branch)) return false;
    if (role(branch) == Role::load || role(branch) == Role::source) return false;
    if (role(branch) != Role::valve || sense == Sense::either) return true;
    return (from(branch) == from_vertex) == (sense == Sense::with_current);
}

bool Wiring::exclude_each_other(int branch, int other) const {
    if (branch < 0 || other < 0) return false;
    const NetworkBranch& a = this->branch(branch);
    const NetworkBranch& b = this->branch(other);
    if (a.part < 0 || a.part != b.part || a.always || b.always) return false;
    if (a.conducts_in.empty() || b.conducts_in.empty()) return false;
    // No condition of the part closes a driver, its behaviour does; never both of a half-bridge.
    if (a.conducts_in.front() < 0 && b.conducts_in.front() < 0) return in_series(a, b);
    return std::ranges::find_first_of(a.conducts_in, b.conducts_in) == a.conducts_in.end();
}

void Wiring::find_roles() {
    for (const NetworkBranch& each : network_.branches) {
        roles_.push_back(role_of(circuit_, each));
        conducts_.push_back(network_.conducts(each, point_.conditions));
    }
}

void Wiring::shadow_laws_not_at_work() {
    shadowed_.assign(network_.branches.size(), false);
    std::map<std::tuple<int, std::string, int, int>, int> shown;
    for (int i = 0; i < branch_count(); ++i) {
        const NetworkBranch& each = branch(i);
        if (each.part < 0 || each.source != network::BranchSource::element) continue;
        const auto [found, is_first] =
            shown.try_emplace({each.part, each.name, each.electrical.from, each.electrical.to}, i);
        if (is_first) continue;
        const bool better = conducts_now(i) && !conducts_now(found->second);
        shadowed_[static_cast<std::size_t>(better ? found->second : i)] = true;
        if (better) found->second = i;
    }
}

void Wiring::find_terminals() {
    supplies_.assign(static_cast<std::size_t>(vertex_count()), false);
    grounds_.assign(static_cast<std::size_t>(vertex_count()), false);
    grounds_[static_cast<std::size_t>(body())] = true;
    const std::vector<bool> joined_to_body =
        flood(*this, grounds_, {.extent = Extent::as_wired, .sense = Sense::against_current});
    for (int i = 0; i < branch_count(); ++i) {
        if (role(i) != Role::source || branch(i).source == network::BranchSource::instrument) continue;
        if (is_at_work(branch(i), point_.conditions)) supplies_[static_cast<std::size_t>(from(i))] = true;
        // Units that bias a pin have a ground pin of their own, which is a way to ground and not its end; of
        // batteries in series only the last has its negative pole on the body.
        const int part = branch(i).part;
        const auto negative = static_cast<std::size_t>(to(i));
        if (part >= 0 && circuit_.parts[static_cast<std::size_t>(part)].kind->letter == "G")
            grounds_[negative] = grounds_[negative] || joined_to_body[negative];
    }
}

void Wiring::list_branches() {
    const network::Graph graph = network::graph_of(network_);
    branches_at_.resize(static_cast<std::size_t>(vertex_count()));
    for (int vertex = 0; vertex < vertex_count(); ++vertex) {
        const auto [first, last] = boost::out_edges(static_cast<std::size_t>(vertex), graph);
        for (auto edge = first; edge != last; ++edge) {
            const int index = graph[*edge].branch;
            if (from(index) != to(index) && !is_shadowed(index))
                branches_at_[static_cast<std::size_t>(vertex)].push_back(index);
        }
    }
}

}  // namespace halfsplit::tracing
