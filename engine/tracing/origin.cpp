#include "engine/tracing/origin.h"

#include <algorithm>

#include "engine/base/nearest.h"

namespace halfsplit::tracing {

using model::Circuit;
using network::BranchSource;

namespace {

bool touches_own_load(const Wiring& wiring, int vertex, int part) {
    return std::ranges::any_of(wiring.branches_at(vertex), [&](int branch) {
        return wiring.role(branch) == Role::load && wiring.branch(branch).part == part;
    });
}

void add_origin(const Wiring& wiring, int vertex, Start& start) {
    const auto same = [&](const Origin& origin) { return origin.vertex == vertex; };
    if (vertex == wiring.body() || std::ranges::any_of(start.origins, same)) return;
    start.origins.push_back({vertex, start.part >= 0 && touches_own_load(wiring, vertex, start.part)});
}

Start start_at_part(const Wiring& wiring, const std::string& name, int part) {
    Start start{name, Subject::part, part, -1, {}, {}, -1};
    const bool joins =
        wiring.circuit().parts[static_cast<std::size_t>(part)].kind->pin_policy == model::PinPolicy::counted;
    for (int branch = 0; branch < wiring.branch_count(); ++branch) {
        const network::NetworkBranch& each = wiring.branch(branch);
        // The contacts of its plug lie on the way to the part; those of a coupling are the part.
        const bool is_own =
            each.source == BranchSource::element || (joins && each.source == BranchSource::contact);
        if (each.part == part && is_own) start.own.insert(branch);
    }
    const int pins = static_cast<int>(wiring.circuit().parts[static_cast<std::size_t>(part)].pins.size());
    for (int pin = 0; pin < pins; ++pin) {
        const std::string point = wiring.circuit().point_name({part, pin});
        const auto& nodes = wiring.network().point_nodes;
        auto found = nodes.find(point + "@part");
        if (found == nodes.end()) found = nodes.find(point);
        if (found != nodes.end()) add_origin(wiring, wiring.vertex(found->second), start);
    }
    return start;
}

Start start_at_branches(const Wiring& wiring, const std::string& name, Subject subject,
                        const std::vector<int>& branches) {
    Start start{name, subject, -1, -1, {}, {branches.begin(), branches.end()}, -1};
    const network::NetworkBranch& first = wiring.branch(branches.front());
    (subject == Subject::wire ? start.wire : start.part) = subject == Subject::wire ? first.wire : first.part;
    for (const int branch : branches) {
        add_origin(wiring, wiring.from(branch), start);
        add_origin(wiring, wiring.to(branch), start);
    }
    return start;
}

/// The part whose load hangs on this pin, directly or behind its plug contact; -1 where none does.
int load_at_pin(const Wiring& wiring, int vertex, int part) {
    if (touches_own_load(wiring, vertex, part)) return part;
    const bool behind_plug = std::ranges::any_of(wiring.branches_at(vertex), [&](int branch) {
        return wiring.role(branch) == Role::connection && wiring.branch(branch).part == part &&
               touches_own_load(wiring, wiring.far_end(branch, vertex), part);
    });
    return behind_plug ? part : -1;
}

Start start_at_point(const Wiring& wiring, const std::string& name, int node) {
    Start start{name, Subject::point, -1, -1, {}, {}, -1};
    const int vertex = wiring.vertex(node);
    const std::string pin = name.substr(0, name.find('@'));
    if (const auto found = wiring.circuit().find_pin(pin)) {
        start.part = found->part;
        start.through = load_at_pin(wiring, vertex, found->part);
    }
    start.origins.push_back({vertex, start.through >= 0});
    return start;
}

std::vector<int> branches_named(const Wiring& wiring, const std::string& name) {
    std::vector<int> found;
    for (int branch = 0; branch < wiring.branch_count(); ++branch)
        if (wiring.branch(branch).name == name && !wiring.is_shadowed(branch)) found.push_back(branch);
    return found;
}

std::vector<std::string> known_names(const Wiring& wiring) {
    std::vector<std::string> names = wiring.network().points;
    for (const model::Part& part : wiring.circuit().parts) names.push_back(part.id);
    for (const model::Wire& wire : wiring.circuit().wires) names.push_back(wire.id);
    return names;
}

}  // namespace

tl::expected<Start, std::string> find_start(const Wiring& wiring, const std::string& name) {
    const auto& nodes = wiring.network().point_nodes;
    if (const auto found = nodes.find(name); found != nodes.end())
        return start_at_point(wiring, name, found->second);
    const Circuit& circuit = wiring.circuit();
    if (const model::Part* part = circuit.find_part(name))
        return start_at_part(wiring, name, static_cast<int>(part - circuit.parts.data()));
    if (const auto branches = branches_named(wiring, name); !branches.empty())
        return start_at_branches(wiring, name, circuit.find_wire(name) ? Subject::wire : Subject::element,
                                 branches);
    return tl::unexpected("no point, part, wire or element is called '" + name + "'" +
                          did_you_mean(name, known_names(wiring)));
}

}  // namespace halfsplit::tracing
