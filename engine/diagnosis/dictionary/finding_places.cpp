#include "engine/diagnosis/dictionary/finding_places.h"

#include <algorithm>
#include <map>
#include <stdexcept>

#include "engine/base/index.h"
#include "engine/instruments/voltmeter.h"
#include "engine/network/branches_in.h"

namespace halfsplit::diagnosis {

using network::Network;

namespace {

int node_of(const Network& network, const std::string& point) {
    const auto node = network.point_nodes.find(point);
    if (node == network.point_nodes.end()) throw std::logic_error("no point is called '" + point + "'");
    return node->second;
}

std::multimap<std::string_view, int> branches_by_name(const Network& network) {
    std::multimap<std::string_view, int> branches;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        branches.emplace(network.branches[i].name, static_cast<int>(i));
    return branches;
}

int branch_of_wire(const Network& network, const std::multimap<std::string_view, int>& by_name,
                   const std::string& wire) {
    const auto [first, last] = by_name.equal_range(wire);
    for (auto branch = first; branch != last; ++branch)
        if (network.branches[at(branch->second)].source == network::BranchSource::wire) return branch->second;
    throw std::logic_error("no wire is called '" + wire + "'");
}

FindingPlaces::Seen place_of_sign(const std::vector<SignSource>& sources,
                                  const std::multimap<std::string_view, int>& by_name, int finding,
                                  const std::string& name) {
    const SignSource* source = find_sign_source(sources, name);
    if (source == nullptr) throw std::logic_error("'" + name + "' shows nothing");
    FindingPlaces::Seen seen{finding, *source, {}};
    const auto [first, last] = by_name.equal_range(source->branch);
    if (!source->branch.empty())
        for (auto branch = first; branch != last; ++branch) seen.branches.push_back(branch->second);
    return seen;
}

}  // namespace

FindingPlaces places_of(const model::Circuit& circuit, const std::vector<Finding>& findings,
                        const Network& network) {
    const std::vector<SignSource> sources = sign_sources(circuit);
    const auto by_name = branches_by_name(network);
    FindingPlaces places;
    places.findings = findings.size();
    for (int i = 0; i < static_cast<int>(findings.size()); ++i) {
        const Finding& finding = findings[at(i)];
        switch (finding.kind) {
            case Finding::Kind::voltage:
                places.voltages.push_back(
                    {i, node_of(network, finding.at), node_of(network, finding.against)});
                break;
            case Finding::Kind::current:
                places.currents.push_back({i, branch_of_wire(network, by_name, finding.at)});
                break;
            case Finding::Kind::sign:
                places.signs.push_back(place_of_sign(sources, by_name, i, finding.at));
                break;
        }
    }
    return places;
}

void read_currents_and_signs(const FindingPlaces& places, const Network& network,
                             const std::vector<int>& conditions, const network::Solution& solution,
                             std::span<float> row) {
    for (const FindingPlaces::Current& current : places.currents)
        row[at(current.finding)] = static_cast<float>(solution.current_a[at(current.branch)]);
    for (const FindingPlaces::Seen& seen : places.signs)
        row[at(seen.finding)] =
            static_cast<float>(sign_of(seen.source, seen.branches, network, conditions, solution));
}

std::vector<network::Branch> branches_with_meters(const FindingPlaces& places, const Network& network,
                                                  const std::vector<int>& conditions) {
    std::vector<network::Branch> branches = network::branches_in(network, conditions);
    branches.reserve(branches.size() + places.voltages.size());
    for (const FindingPlaces::Voltage& voltage : places.voltages)
        branches.push_back(
            {voltage.at, voltage.against, model::Resistance{instruments::kVoltmeterOhm}, false});
    return branches;
}

bool read_with_meters(const FindingPlaces& places, const Network& network, const std::vector<int>& conditions,
                      std::span<float> row) {
    network::Solver solver(network.node_count, branches_with_meters(places, network, conditions));
    network::Solution solution;
    if (!solver.solve_into(solution)) return false;
    read_currents_and_signs(places, network, conditions, solution, row);
    int meter = static_cast<int>(network.branches.size());
    for (const FindingPlaces::Voltage& voltage : places.voltages) {
        solver.set_conducts(meter, true);
        if (!solver.solve_into(solution)) return false;
        row[at(voltage.finding)] =
            static_cast<float>(instruments::kVoltmeterOhm * solution.current_a[at(meter)]);
        solver.set_conducts(meter++, false);
    }
    return true;
}

}  // namespace halfsplit::diagnosis
