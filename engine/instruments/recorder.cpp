#include "engine/instruments/recorder.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/nearest.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::instruments {

using model::Circuit;

namespace {

constexpr double kChannelOhm = 1e6;  // of an oscilloscope's input; common practice

/// All the things a clamp can be put around.
std::vector<std::string> conductors(const Circuit& circuit) {
    std::vector<std::string> names;
    for (const model::Wire& wire : circuit.wires) names.push_back(wire.id);
    const model::Quantities quantities = network::complete_quantities(circuit, {});
    for (const model::Part& part : circuit.parts)
        for (const model::Element& element :
             network::electrics_of(circuit, part, part.numbers, quantities).elements)
            names.push_back(part.id + "." + element.name);
    return names;
}

/// A channel where it ends up in a network.
struct Probe {
    int node = network::kBody;
    std::vector<int> branches;
};

std::vector<Probe> probes_for(const network::Network& network, const std::vector<Channel>& channels) {
    std::vector<Probe> probes;
    for (const Channel& channel : channels) {
        Probe probe;
        if (channel.is_current) {
            for (std::size_t i = 0; i < network.branches.size(); ++i)
                if (network.branches[i].name == channel.name) probe.branches.push_back(static_cast<int>(i));
        } else {
            probe.node = network.point_nodes.find(channel.name)->second;
        }
        probes.push_back(std::move(probe));
    }
    return probes;
}

double value_of(const simulation::Course& course, const Probe& probe) {
    if (probe.branches.empty()) return course.potential_v(probe.node);
    double sum_a = 0;
    for (const int branch : probe.branches) sum_a += course.current_a(branch);
    return sum_a;
}

}  // namespace

tl::expected<Channel, std::string> channel_for(const Circuit& circuit, const std::string& name) {
    const std::string pin = name.ends_with("@part") ? name.substr(0, name.size() - 5) : name;
    if (circuit.find_pin(pin)) return Channel{name, false};
    std::vector<std::string> known = conductors(circuit);
    if (std::ranges::find(known, name) != known.end()) return Channel{name, true};
    for (const model::Part& part : circuit.parts)
        for (int i = 0; i < static_cast<int>(part.pins.size()); ++i)
            known.push_back(circuit.point_name({static_cast<int>(&part - circuit.parts.data()), i}));
    return tl::unexpected("no point, wire or element is called '" + name + "'" + did_you_mean(name, known));
}

void connect(const std::vector<Channel>& channels, network::Situation& situation) {
    for (const Channel& channel : channels)
        if (!channel.is_current)
            situation.attachments.push_back(
                {"recorder at " + channel.name, channel.name, "body", model::Resistance{kChannelOhm}});
}

tl::expected<Recording, Diagnostics> record(simulation::Course& course, const std::vector<Channel>& channels,
                                            double every_s, double until_s,
                                            const std::function<void(double)>& progress) {
    Recording recording;
    recording.least.assign(channels.size(), std::numeric_limits<double>::infinity());
    recording.most.assign(channels.size(), -std::numeric_limits<double>::infinity());
    // A course that goes on has been sampled up to now.
    const long first =
        course.now_s() == 0 ? 0 : static_cast<long>(std::floor(course.now_s() / every_s + 1e-9)) + 1;
    const auto last = static_cast<long>(std::floor(until_s / every_s + 1e-9));
    for (long i = first; i <= last; ++i) {
        const double time_s = std::max(course.now_s(), every_s * static_cast<double>(i));
        if (auto run = course.run_until(time_s); !run) return tl::unexpected(run.error());
        const std::vector<Probe> probes = probes_for(course.network(), channels);
        std::vector<double>& row = recording.rows.emplace_back();
        for (std::size_t k = 0; k < channels.size(); ++k) {
            row.push_back(value_of(course, probes[k]));
            recording.least[k] = std::min(recording.least[k], row.back());
            recording.most[k] = std::max(recording.most[k], row.back());
        }
        recording.time_s.push_back(time_s);
        if (progress) progress(time_s);
    }
    if (course.now_s() < until_s)
        if (auto run = course.run_until(until_s); !run) return tl::unexpected(run.error());
    return recording;
}

}  // namespace halfsplit::instruments
