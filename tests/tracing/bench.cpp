#include "tests/tracing/bench.h"

#include <algorithm>
#include <stdexcept>

namespace halfsplit::test {

using network::BranchSource;
using network::kBody;
using network::NetworkBranch;

Bench::Bench() {
    network.point_nodes["body"] = kBody;
}

void Bench::part(const std::string& id, std::string_view letter, const std::vector<std::string>& pins,
                 const std::string& place) {
    model::PartKind kind;
    kind.letter = letter;
    kind.pin_policy = pins.empty() ? model::PinPolicy::single : model::PinPolicy::fixed;
    kinds_.push_back(kind);
    model::Part part;
    part.id = id;
    part.kind = &kinds_.back();
    part.title = "title of " + id;
    part.place = place;
    part.plugged = false;
    for (const std::string& pin : pins) part.pins.push_back({pin, "", {}, {}});
    if (pins.empty()) part.pins.push_back({"", "", {}, {}});
    circuit.parts.push_back(part);
    for (std::size_t pin = 0; pin < part.pins.size(); ++pin) {
        const std::string name =
            circuit.point_name({static_cast<int>(circuit.parts.size()) - 1, static_cast<int>(pin)});
        network.point_nodes[name + "@part"] = add_node(name);
    }
    network.conditions.push_back(0);
    network.forced.push_back(false);
    point.conditions.push_back(0);
}

void Bench::plug(const std::string& id) {
    const int index = part_index(id);
    circuit.parts[static_cast<std::size_t>(index)].plugged = true;
    for (const model::Pin& pin : circuit.parts[static_cast<std::size_t>(index)].pins) {
        const std::string name = id + "." + pin.id;
        const int harness_side = node(name);
        NetworkBranch contact;
        contact.electrical = {harness_side, add_node(name + "@part"), model::Resistance{0.002}, true};
        contact.name = name;
        contact.source = BranchSource::contact;
        contact.part = contact.slot = index;
        add_branch(contact);
    }
}

void Bench::element(const std::string& id, const std::string& name, const std::string& from,
                    const std::string& to, const model::Law& law, const std::vector<int>& conducts_in) {
    NetworkBranch element;
    element.electrical = {side_of(id, from), side_of(id, to), law, true};
    element.name = id + "." + name;
    element.part = element.slot = part_index(id);
    element.conducts_in = conducts_in;
    add_branch(element);
}

void Bench::contact(const std::string& id, const std::string& name, const std::string& from,
                    const std::string& to, const std::vector<int>& conducts_in) {
    element(id, name, from, to, model::Resistance{0.005}, conducts_in);
    network.branches.back().switching = true;
}

void Bench::wire(const std::string& id, const std::string& from, const std::string& to,
                 const std::string& colour, double area_mm2) {
    model::Wire wire;
    wire.id = id;
    wire.from = circuit.find_pin(from).value();
    wire.to = circuit.find_pin(to).value();
    wire.base_colour = colour;
    wire.area_mm2 = area_mm2;
    circuit.wires.push_back(wire);
    NetworkBranch branch;
    branch.electrical = {node(from), node(to), model::Resistance{0.01}, true};
    branch.name = id;
    branch.source = BranchSource::wire;
    branch.wire = static_cast<int>(circuit.wires.size()) - 1;
    add_branch(branch);
}

void Bench::leak(const std::string& name, const std::string& from, const std::string& to) {
    NetworkBranch branch;
    branch.electrical = {node(from), node(to), model::Resistance{0.05}, true};
    branch.name = name;
    branch.source = BranchSource::fault;
    add_branch(branch);
}

void Bench::battery() {
    part("G1", "G", {"+", "-"});
    element("G1", "cells", "+", "-", model::Source{12.6, 0.01});
    ground_point("E1");
    wire("W0", "G1.-", "E1", "BK", 25);
}

void Bench::fuse(const std::string& id) {
    part(id, "F", {"1", "2"});
    element(id, "wire", "1", "2", model::Resistance{0.005}, {0});
}

void Bench::lamp(const std::string& id) {
    part(id, "E", {"1", "2"});
    element(id, "filament", "1", "2", model::Filament{12, 21, 0.1});
}

void Bench::on_off_switch(const std::string& id) {
    part(id, "S", {"1", "2"});
    contact(id, "1-2", "1", "2", {1});
}

void Bench::ground_point(const std::string& id) {
    part(id, "X");
    element(id, "joint", "", "body", model::Resistance{0.001});
}

void Bench::open(const std::string& name) {
    network.branches[static_cast<std::size_t>(branch(name))].electrical.conducts = false;
}

void Bench::put(const std::string& id, int condition) {
    point.conditions[static_cast<std::size_t>(part_index(id))] = condition;
}

void Bench::carries(const std::string& name, double current_a) {
    point.current_a[static_cast<std::size_t>(branch(name))] = current_a;
}

void Bench::reads(const std::string& name, double potential_v) {
    point.potential_v[static_cast<std::size_t>(node(name))] = potential_v;
}

int Bench::branch(const std::string& name) const {
    const auto found = std::ranges::find(network.branches, name, &NetworkBranch::name);
    if (found == network.branches.end()) throw std::invalid_argument("no branch " + name);
    return static_cast<int>(found - network.branches.begin());
}

int Bench::node(const std::string& name) const {
    const auto found = network.point_nodes.find(name);
    if (found == network.point_nodes.end()) throw std::invalid_argument("no point " + name);
    return found->second;
}

int Bench::part_index(const std::string& id) const {
    return static_cast<int>(circuit.find_part(id) - circuit.parts.data());
}

int Bench::add_node(const std::string& name) {
    network.point_nodes[name] = network.node_count;
    network.node_names.push_back(name);
    point.potential_v.push_back(0);
    point.floating.push_back(false);
    return network.node_count++;
}

int Bench::side_of(const std::string& id, const std::string& pin) {
    if (pin == "body") return kBody;
    if (pin.starts_with('*')) {
        const std::string inner = "inside " + id + pin;
        return network.point_nodes.contains(inner) ? node(inner) : add_node(inner);
    }
    return node((pin.empty() ? id : id + "." + pin) + "@part");
}

void Bench::add_branch(NetworkBranch branch) {
    network.branches.push_back(std::move(branch));
    point.current_a.push_back(0);
}

}  // namespace halfsplit::test
