#include "engine/instruments/probing.h"

#include <vector>

#include "engine/base/nearest.h"

namespace halfsplit::instruments {

namespace {

int node_of(const simulation::Settled& settled, const std::string& point) {
    return settled.network.point_nodes.find(point)->second;
}

/// Points a lead can touch: not those inside parts or instruments.
std::vector<std::string> touchable_points(const simulation::Settled& settled) {
    std::vector<std::string> points;
    for (const auto& [name, node] : settled.network.point_nodes)
        if (!name.starts_with("inside ") && !name.starts_with('*')) points.push_back(name);
    return points;
}

}  // namespace

double voltage_between(const simulation::Settled& settled, const std::string& from, const std::string& to) {
    return settled.point.potential_at(node_of(settled, from)) -
           settled.point.potential_at(node_of(settled, to));
}

double current_through(const simulation::Settled& settled, std::string_view name) {
    double current_a = 0;
    for (std::size_t i = 0; i < settled.network.branches.size(); ++i)
        if (settled.network.branches[i].name == name) current_a += settled.point.current_a[i];
    return current_a;
}

bool is_floating(const simulation::Settled& settled, const std::string& point) {
    const int node = node_of(settled, point);
    return node != network::kBody && settled.point.floating[static_cast<std::size_t>(node)];
}

tl::expected<void, Diagnostics> check_points(const Bench& bench, const Leads& leads) {
    Diagnostics problems;
    const std::vector<std::string> points = touchable_points(bench.settled);
    for (const std::string& point : {leads.at, leads.against}) {
        const bool known = bench.settled.network.point_nodes.contains(point) &&
                           !point.starts_with("inside ") && !point.starts_with('*');
        if (!known)
            problems.push_back(problem("no point is called '" + point + "'" + did_you_mean(point, points)));
    }
    if (problems.empty() && leads.at == leads.against)
        problems.push_back(
            problem("both leads are on '" + leads.at + "'; two different points were expected"));
    if (!problems.empty()) return tl::unexpected(problems);
    return {};
}

tl::expected<void, Diagnostics> check_series_place(const Bench& bench, const std::string& where) {
    std::vector<std::string> known;
    for (const network::NetworkBranch& branch : bench.settled.network.branches) {
        if (branch.source != network::BranchSource::wire && branch.source != network::BranchSource::contact)
            continue;
        if (branch.name == where) return {};
        known.push_back(branch.name);
    }
    return tl::unexpected(
        one_problem("no wire or plug contact is called '" + where + "'" + did_you_mean(where, known)));
}

const model::Part* part_of_point(const model::Circuit& circuit, std::string_view point) {
    if (point.ends_with("@part")) point.remove_suffix(5);
    const auto pin = circuit.find_pin(point);
    return pin ? &circuit.parts[static_cast<std::size_t>(pin->part)] : nullptr;
}

bool is_electronic(const model::Circuit& circuit, std::string_view point) {
    const model::Part* part = part_of_point(circuit, point);
    return part != nullptr && (part->kind->letter == "A" || part->kind->letter == "B");
}

}  // namespace halfsplit::instruments
