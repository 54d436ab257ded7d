#include "engine/tracing/step.h"

#include <algorithm>
#include <array>

namespace halfsplit::tracing {

using model::Circuit;
using network::BranchSource;
using network::NetworkBranch;

namespace {

const model::Part& part_at(const Circuit& circuit, int part) {
    return circuit.parts[static_cast<std::size_t>(part)];
}

bool is_point_at(const network::Network& network, const std::string& point, int node) {
    const auto found = network.point_nodes.find(point);
    return found != network.point_nodes.end() && found->second == node;
}

/// Pins of `part` at `node`: the side asked for first, then the other.
std::string pin_at(const Wiring& wiring, int part, int node, bool part_side_first) {
    const auto sides = part_side_first ? std::array<std::string_view, 2>{"@part", ""}
                                       : std::array<std::string_view, 2>{"", "@part"};
    const int pins = static_cast<int>(part_at(wiring.circuit(), part).pins.size());
    for (const std::string_view side : sides)
        for (int pin = 0; pin < pins; ++pin) {
            std::string point = wiring.circuit().point_name({part, pin});
            if (!is_point_at(wiring.network(), point + std::string(side), node)) continue;
            // A part without a plug has one side only, and its plain name is the one people know.
            return is_point_at(wiring.network(), point, node) ? point : point + std::string(side);
        }
    return "";
}

std::string end_of_wire(const Wiring& wiring, int wire, int node) {
    const model::Wire& each = wiring.circuit().wires[static_cast<std::size_t>(wire)];
    for (const model::PinRef end : {each.from, each.to}) {
        std::string point = wiring.circuit().point_name(end);
        if (is_point_at(wiring.network(), point, node)) return point;
    }
    return "";
}

std::string place_of_point(const Circuit& circuit, const std::string& point) {
    const std::string pin = point.substr(0, point.find('@'));
    const auto found = circuit.find_pin(pin);
    return found ? place_title(circuit, found->part) : "";
}

Step describe_step(const Wiring& wiring, int branch, int from_vertex, bool against_current) {
    const NetworkBranch& each = wiring.branch(branch);
    const int to_vertex = wiring.far_end(branch, from_vertex);
    Step step;
    step.branch = branch;
    step.name = each.name;
    step.role = wiring.role(branch);
    step.part = each.part;
    step.wire = each.source == BranchSource::wire ? each.wire : -1;
    step.from_node = wiring.node(from_vertex);
    step.to_node = wiring.node(to_vertex);
    step.from = point_at(wiring, branch, from_vertex);
    step.to = point_at(wiring, branch, to_vertex);
    step.from_place = place_of_point(wiring.circuit(), step.from);
    step.to_place = place_of_point(wiring.circuit(), step.to);
    if (each.part >= 0) {
        step.title = part_at(wiring.circuit(), each.part).title;
        step.from_place = step.to_place = place_title(wiring.circuit(), each.part);
    }
    if (step.wire >= 0) {
        const model::Wire& wire = wiring.circuit().wires[static_cast<std::size_t>(step.wire)];
        step.colour = wire.base_colour + wire.tracer_colour;
        step.area_mm2 = wire.area_mm2;
    }
    step.from_v = wiring.point().potential_at(step.from_node);
    step.to_v = wiring.point().potential_at(step.to_node);
    step.to_floats =
        step.to_node != network::kBody && wiring.point().floating[static_cast<std::size_t>(step.to_node)];
    step.current_a = wiring.current_out(branch, against_current ? to_vertex : from_vertex);
    step.conducts = wiring.conducts_now(branch);
    return step;
}

}  // namespace

std::string place_title(const Circuit& circuit, int part) {
    const std::string& id = part_at(circuit, part).place;
    const model::Place* place = circuit.find_place(id);
    return place == nullptr || place->title.empty() ? id : place->title;
}

std::string point_at(const Wiring& wiring, int branch, int vertex) {
    if (vertex == wiring.body()) return "body";
    const NetworkBranch& each = wiring.branch(branch);
    const int node = wiring.node(vertex);
    std::string point;
    if (each.source == BranchSource::wire) {
        point = end_of_wire(wiring, each.wire, node);
    } else if (each.part >= 0) {
        const bool is_element = each.source == BranchSource::element;
        const bool is_second_end = wiring.from(branch) != vertex;
        point = pin_at(wiring, each.part, node, is_element || is_second_end);
    }
    return point.empty() ? wiring.network().node_names[static_cast<std::size_t>(node)] : point;
}

Path describe_path(const Wiring& wiring, const Route& route, bool against_current) {
    Path path;
    path.against_current = against_current;
    for (std::size_t i = 0; i < route.branches.size(); ++i) {
        Step step = describe_step(wiring, route.branches[i], route.vertices[i], against_current);
        if (!step.conducts) path.interrupted = true;
        if (step.role == Role::load && std::ranges::find(path.loads, step.part) == path.loads.end())
            path.loads.push_back(step.part);
        path.steps.push_back(std::move(step));
    }
    if (path.steps.empty()) return path;
    path.start = path.steps.front().from;
    path.end = path.steps.back().to;
    path.start_v = path.steps.front().from_v;
    return path;
}

}  // namespace halfsplit::tracing
