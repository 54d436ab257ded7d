#include "engine/instruments/recorder.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/nearest.h"
#include "engine/model/structure.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::instruments {

using model::Circuit;

namespace {

constexpr double kChannelOhm = 1e6;  // of an oscilloscope's input; common practice
const char* const kProbe = "recorder at ";

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

double current_now(const simulation::Course& course, const std::string& name) {
    const std::vector<network::NetworkBranch>& branches = course.network().branches;
    double sum_a = 0;
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].name == name) sum_a += course.current_a(static_cast<int>(i));
    return sum_a;
}

double voltage_now(const simulation::Course& course, const Channel& channel) {
    const auto potential = [&](const std::string& point) {
        if (point == model::kBodyId) return 0.0;
        return course.potential_v(course.network().point_nodes.find(point)->second);
    };
    return potential(channel.name) - potential(channel.against);
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

tl::expected<std::vector<Channel>, std::string> channels_for(const Circuit& circuit,
                                                             const std::string& names) {
    std::vector<Channel> channels;
    std::size_t start = 0;
    for (std::size_t comma = 0; comma != std::string::npos; start = comma + 1) {
        comma = names.find(',', start);
        auto channel = channel_for(circuit, names.substr(start, comma - start));
        if (!channel) return tl::unexpected(channel.error());
        channels.push_back(std::move(*channel));
    }
    return channels;
}

void connect(const std::vector<Channel>& channels, network::Situation& situation) {
    for (const Channel& channel : channels)
        if (!channel.is_current)
            situation.attachments.push_back(
                {kProbe + channel.name, channel.name, channel.against, model::Resistance{kChannelOhm}});
}

void disconnect(network::Situation& situation) {
    std::erase_if(situation.attachments,
                  [](const network::Attachment& each) { return each.name.starts_with(kProbe); });
}

std::vector<double> values_now(const simulation::Course& course, const std::vector<Channel>& channels) {
    std::vector<double> values;
    values.reserve(channels.size());
    for (const Channel& channel : channels)
        values.push_back(channel.is_current ? current_now(course, channel.name)
                                            : voltage_now(course, channel));
    return values;
}

tl::expected<Recording, Diagnostics> record_from(const Circuit& circuit, const simulation::Settled& settled,
                                                 const std::vector<Channel>& channels, double every_s,
                                                 double seconds) {
    network::Situation probed = settled.situation;
    connect(channels, probed);
    auto course = simulation::Course::begin(circuit, settled, {});
    if (!course) return tl::unexpected(course.error());
    if (const auto changed = course->change(probed); !changed) return tl::unexpected(changed.error());
    return record(*course, channels, every_s, seconds);
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
        const std::vector<double>& row = recording.rows.emplace_back(values_now(course, channels));
        for (std::size_t k = 0; k < channels.size(); ++k) {
            recording.least[k] = std::min(recording.least[k], row[k]);
            recording.most[k] = std::max(recording.most[k], row[k]);
        }
        recording.time_s.push_back(time_s);
        if (progress) progress(time_s);
    }
    if (course.now_s() < until_s)
        if (auto run = course.run_until(until_s); !run) return tl::unexpected(run.error());
    return recording;
}

}  // namespace halfsplit::instruments
