#include "engine/diagnosis/limits/varied_network.h"

#include <numeric>

#include "engine/base/index.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::diagnosis {

VariedNetwork::VariedNetwork(const model::Circuit& circuit, const network::Network& network)
    : circuit_(circuit),
      network_(network),
      first_element_(circuit.parts.size(), -1),
      elements_(circuit.parts.size(), 0),
      first_trigger_(circuit.parts.size(), -1),
      branch_of_wire_(circuit.wires.size(), -1),
      load_factor_(network.branches.size(), 1) {
    std::vector<std::size_t> contacts(circuit.parts.size(), 0);
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const network::NetworkBranch& branch = network.branches[i];
        if (branch.wire >= 0 && branch.source == network::BranchSource::wire)
            branch_of_wire_[at(branch.wire)] = static_cast<int>(i);
        if (branch.part < 0) continue;
        // A part's plug contacts come first, one for each pin.
        const model::Part& part = circuit.parts[at(branch.part)];
        const bool is_contact = part.plugged && contacts[at(branch.part)]++ < part.pins.size();
        if (is_contact) continue;
        if (elements_[at(branch.part)]++ == 0) first_element_[at(branch.part)] = static_cast<int>(i);
    }
    for (std::size_t i = 0; i < network.triggers.size(); ++i)
        if (int& first = first_trigger_[at(network.triggers[i].part)]; first < 0) first = static_cast<int>(i);
    for (const network::NetworkTravel& travel : network.travels)
        if (travel.rotor >= 0) load_factor_[at(travel.rotor)] = travel.travel.load_factor;
}

std::vector<VariedNetwork::BranchLaw> VariedNetwork::laws(int part,
                                                          const std::vector<double>& numbers) const {
    const model::Electrics electrics =
        network::electrics_of(circuit_, circuit_.parts[at(part)], numbers, network_.quantities);
    std::vector<BranchLaw> laws;
    int branch = first_element_[at(part)];
    for (const model::Element& element : electrics.elements) {
        model::Law law = element.law;
        if (const auto* motor = std::get_if<model::RunningMotor>(&law); motor != nullptr)
            law = model::heavier(*motor, load_factor_[at(branch)]);
        laws.emplace_back(branch++, law);
    }
    return laws;
}

std::vector<int> VariedNetwork::branches(int part) const {
    std::vector<int> branches(at(elements_[at(part)]));
    std::iota(branches.begin(), branches.end(), first_element_[at(part)]);
    return branches;
}

VariedNetwork::BranchLaw VariedNetwork::wire_law(int wire, double factor) const {
    const int branch = branch_of_wire_[at(wire)];
    const auto& nominal = std::get<model::Resistance>(network_.branches[at(branch)].electrical.law);
    return {branch, model::Resistance{factor * nominal.ohm}};
}

std::vector<VariedNetwork::Levels> VariedNetwork::levels(int part, const std::vector<double>& numbers) const {
    const model::Electrics electrics =
        network::electrics_of(circuit_, circuit_.parts[at(part)], numbers, network_.quantities);
    std::vector<Levels> levels;
    int trigger = first_trigger_[at(part)];
    for (const model::Trigger& each : electrics.triggers) levels.push_back({trigger++, each.rise, each.fall});
    return levels;
}

}  // namespace halfsplit::diagnosis
