#include "engine/network/faults_at_work.h"

#include <algorithm>

namespace halfsplit::network {

using model::Circuit;
using model::ContactEffect;
using model::LinkEffect;

namespace {

using Applied = tl::expected<void, std::string>;

std::size_t number_index(const model::PartKind& kind, std::string_view name) {
    const auto found = std::ranges::find(kind.numbers, name, &model::NumberSpec::name);
    return static_cast<std::size_t>(found - kind.numbers.begin());
}

void open_all(Network& network, const std::vector<int>& branches) {
    for (const int branch : branches)
        network.branches[static_cast<std::size_t>(branch)].electrical.conducts = false;
}

/// Current finds its way whatever condition the part is in; of an element's several laws one is replaced, the
/// rest go.
void short_all(Network& network, const std::vector<int>& branches, double ohm) {
    open_all(network, branches);
    if (branches.empty()) return;
    NetworkBranch& first = network.branches[static_cast<std::size_t>(branches.front())];
    first.electrical.conducts = true;
    first.electrical.law = model::Resistance{ohm};
    first.always = true;
    first.store = {};
    first.change = {};
}

void add_leak(Network& network, int from, int to, double ohm, const Fault& fault) {
    NetworkBranch leak;
    leak.electrical = {from, to, model::Resistance{ohm}, true};
    leak.name = fault.text;
    leak.source = BranchSource::fault;
    leak.part = fault.part;
    leak.wire = fault.wire;
    network.branches.push_back(std::move(leak));
}

/// The positive pole of the first battery, or else of the first alternator; -1 where there is no source.
int supply_terminal(const Circuit& circuit, const Terminals& terminals) {
    for (const std::string_view element : {"battery", "alternator"})
        for (std::size_t i = 0; i < circuit.parts.size(); ++i)
            if (circuit.parts[i].kind->element == element)
                return terminals.harness_side(static_cast<int>(i), 0);
    return -1;
}

std::string contact_name(const Circuit& circuit, int part, int pin) {
    const model::Part& owner = circuit.parts[static_cast<std::size_t>(part)];
    std::string id = owner.pins[static_cast<std::size_t>(pin)].id;
    if (owner.kind->pin_policy == model::PinPolicy::counted) id.pop_back();
    return owner.id + "." + id;
}

/// Moisture bridges a contact and those beside it in its housing.
void wet_neighbours(const Circuit& circuit, const Fault& fault, const Terminals& terminals,
                    Network& network) {
    const model::Part& part = circuit.parts[static_cast<std::size_t>(fault.part)];
    const int step = part.kind->pin_policy == model::PinPolicy::counted ? 2 : 1;
    for (const int neighbour : {fault.pin - step, fault.pin + step}) {
        if (neighbour < 0 || neighbour >= static_cast<int>(part.pins.size())) continue;
        add_leak(network, terminals.harness_side(fault.part, fault.pin),
                 terminals.harness_side(fault.part, neighbour), fault.value, fault);
    }
}

void swap_contacts(const Circuit& circuit, const Fault& fault, Network& network) {
    const auto first = branches_named(network, contact_name(circuit, fault.part, fault.pin));
    const auto second = branches_named(network, contact_name(circuit, fault.part, fault.other));
    for (std::size_t i = 0; i < std::min(first.size(), second.size()); ++i)
        std::swap(network.branches[static_cast<std::size_t>(first[i])].electrical.from,
                  network.branches[static_cast<std::size_t>(second[i])].electrical.from);
}

bool is_chafing_now(const Fault& fault, Network& network) {
    network.felt.insert(fault.chafing->quantity);
    const auto quantity = network.quantities.find(fault.chafing->quantity);
    return quantity != network.quantities.end() && quantity->second >= fault.chafing->low &&
           quantity->second <= fault.chafing->high;
}

/// What a short of a chafed wire to the body measures: bare copper pressed on bare metal (from memory).
constexpr double kChafedShortOhm = 0.05;

Applied apply_to_wire(const Circuit& circuit, const Fault& fault, LinkEffect::What what,
                      const Terminals& terminals, Network& network) {
    const model::Wire& wire = circuit.wires[static_cast<std::size_t>(fault.wire)];
    const int at = terminals.harness_side(wire.from.part, wire.from.pin);
    if (what == LinkEffect::What::to_body) {
        add_leak(network, at, Terminals::kBodyTerminal, fault.value, fault);
    } else if (what == LinkEffect::What::to_supply) {
        const int supply = supply_terminal(circuit, terminals);
        if (supply < 0)
            return tl::unexpected("'" + fault.text +
                                  "': the circuit has no battery or alternator to short to");
        add_leak(network, at, supply, fault.value, fault);
    } else if (what == LinkEffect::What::between_wires) {
        const model::Wire& other = circuit.wires[static_cast<std::size_t>(fault.other)];
        add_leak(network, at, terminals.harness_side(other.from.part, other.from.pin), fault.value, fault);
    } else if (what == LinkEffect::What::chafed && is_chafing_now(fault, network)) {
        if (fault.chafing->shorts)
            add_leak(network, at, Terminals::kBodyTerminal, kChafedShortOhm, fault);
        else
            open_all(network, branches_named(network, wire.id));
    }
    return {};
}

Applied apply_link(const Circuit& circuit, const Fault& fault, LinkEffect::What what, Terminals& terminals,
                   Network& network) {
    const std::string name =
        fault.subject == FaultSubject::wire      ? circuit.wires[static_cast<std::size_t>(fault.wire)].id
        : fault.subject == FaultSubject::contact ? contact_name(circuit, fault.part, fault.pin)
                                                 : "";
    switch (what) {
        case LinkEffect::What::open:
            open_all(network, branches_named(network, name));
            return {};
        case LinkEffect::What::resistance:
            for (const int branch : branches_named(network, name))
                add_in_series(network, terminals, branch, fault.value, fault.text);
            return {};
        case LinkEffect::What::wet:
            wet_neighbours(circuit, fault, terminals, network);
            return {};
        case LinkEffect::What::swapped:
            swap_contacts(circuit, fault, network);
            return {};
        case LinkEffect::What::unplugged:
            open_contacts(circuit, fault.part, network);
            return {};
        default:
            return apply_to_wire(circuit, fault, what, terminals, network);
    }
}

void apply_to_contact(ContactEffect::What what, const Fault& fault, const std::vector<int>& branches,
                      Terminals& terminals, Network& network) {
    for (const int branch : branches) {
        NetworkBranch& contact = network.branches[static_cast<std::size_t>(branch)];
        if (what == ContactEffect::What::stuck_open) contact.electrical.conducts = false;
        if (what == ContactEffect::What::stuck_closed) contact.always = true;
        if (what == ContactEffect::What::resistance)
            add_in_series(network, terminals, branch, fault.value, fault.text);
    }
}

void force_condition(const model::Part& part, const Fault& fault, std::string_view condition,
                     Network& network) {
    const auto found = std::ranges::find(part.positions, condition, &model::Position::id);
    network.conditions[static_cast<std::size_t>(fault.part)] =
        static_cast<int>(found - part.positions.begin());
    network.forced[static_cast<std::size_t>(fault.part)] = true;
}

}  // namespace

std::vector<double> faulted_numbers(const model::Part& part, int part_index,
                                    const std::vector<Fault>& faults) {
    std::vector<double> numbers = part.numbers;
    for (const Fault& fault : faults) {
        if (fault.subject != FaultSubject::part || fault.part != part_index) continue;
        if (const auto* scale = std::get_if<model::ScaleNumber>(&fault.spec->effect))
            numbers[number_index(*part.kind, scale->number)] *= fault.value;
        if (const auto* set = std::get_if<model::SetNumber>(&fault.spec->effect))
            numbers[number_index(*part.kind, set->number)] = fault.value;
    }
    return numbers;
}

model::Ailments ailments_of(int part_index, const std::vector<Fault>& faults) {
    model::Ailments ailments;
    for (const Fault& fault : faults)
        if (fault.subject == FaultSubject::part && fault.part == part_index &&
            std::holds_alternative<model::Ailment>(fault.spec->effect))
            ailments[std::string(fault.spec->kind)] = fault.value;
    return ailments;
}

Applied apply_fault(const Circuit& circuit, const Fault& fault, Terminals& terminals, Network& network) {
    if (const auto* link = std::get_if<LinkEffect>(&fault.spec->effect))
        return apply_link(circuit, fault, link->what, terminals, network);
    const model::Part& part = circuit.parts[static_cast<std::size_t>(fault.part)];
    const auto of_element = [&](std::string_view element) {
        return branches_named(network, part.id + "." + std::string(element));
    };
    if (const auto* open = std::get_if<model::OpenElement>(&fault.spec->effect))
        open_all(network, of_element(open->element));
    if (const auto* shorted = std::get_if<model::ShortElement>(&fault.spec->effect))
        short_all(network, of_element(shorted->element), fault.value);
    if (const auto* series = std::get_if<model::SeriesElement>(&fault.spec->effect))
        for (const int branch : of_element(series->element))
            add_in_series(network, terminals, branch, fault.value, fault.text);
    if (const auto* contact = std::get_if<ContactEffect>(&fault.spec->effect))
        apply_to_contact(contact->what, fault, of_element(fault.element), terminals, network);
    if (const auto* force = std::get_if<model::ForceCondition>(&fault.spec->effect))
        force_condition(part, fault, force->condition, network);
    if (std::holds_alternative<model::DeadInput>(fault.spec->effect))
        network.dead_inputs.insert({fault.part, fault.pin});
    return {};
}

void add_in_series(Network& network, Terminals& terminals, int branch, double ohm, const std::string& name) {
    NetworkBranch& first = network.branches[static_cast<std::size_t>(branch)];
    model::Law& law = first.electrical.law;
    if (auto* resistance = std::get_if<model::Resistance>(&law)) {
        resistance->ohm += ohm;
    } else if (auto* source = std::get_if<model::Source>(&law)) {
        source->ohm += ohm;
    } else if (auto* cell = std::get_if<model::Cell>(&law)) {
        cell->ohm += ohm;
        cell->charge_ohm += ohm;
    } else {
        NetworkBranch second = first;
        second.electrical.from = terminals.add_inner("inside " + first.name);
        second.electrical.law = model::Resistance{ohm};
        second.name = name;
        second.source = BranchSource::fault;
        second.store = {};
        second.change = {};
        first.electrical.to = second.electrical.from;
        network.branches.push_back(std::move(second));
    }
}

std::vector<int> branches_named(const Network& network, std::string_view name) {
    std::vector<int> found;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        if (network.branches[i].name == name) found.push_back(static_cast<int>(i));
    return found;
}

void open_contacts(const Circuit& circuit, int part, Network& network) {
    for (std::size_t pin = 0; pin < circuit.parts[static_cast<std::size_t>(part)].pins.size(); ++pin)
        open_all(network, branches_named(network, contact_name(circuit, part, static_cast<int>(pin))));
}

}  // namespace halfsplit::network
