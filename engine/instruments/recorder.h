#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"
#include "engine/network/situation.h"
#include "engine/simulation/course.h"

namespace halfsplit::instruments {

inline constexpr std::size_t kMostChannels = 4;

/// One channel of a recorder: the voltage of a point against another, through 1 megohm; or by a clamp, which
/// loads nothing, the current of a wire or an element ("W31", "M3.armature").
struct Channel {
    std::string name;
    bool is_current = false;
    std::string against = "body";  ///< where a voltage's other clip is
    friend bool operator==(const Channel&, const Channel&) = default;
};

/// Reads "M3.1", "W31" …; a message where the circuit has no such thing.
tl::expected<Channel, std::string> channel_for(const model::Circuit& circuit, const std::string& name);

/// Reads a list of them with commas between.
tl::expected<std::vector<Channel>, std::string> channels_for(const model::Circuit& circuit,
                                                             const std::string& names);

/// Connects the channels' probes.
void connect(const std::vector<Channel>& channels, network::Situation& situation);
/// Takes off all probes that connect() put on.
void disconnect(network::Situation& situation);

/// What the channels show now, one value each; 0 A of what is not there.
std::vector<double> values_now(const simulation::Course& course, const std::vector<Channel>& channels);

/// What was recorded: a row of values (V or A) for each time, and the extremes of each channel between them.
struct Recording {
    std::vector<double> time_s;
    std::vector<std::vector<double>> rows;
    std::vector<double> least;
    std::vector<double> most;
};

/// Clips a recorder to the circuit as it stands and lets so many seconds go by.
tl::expected<Recording, Diagnostics> record_from(const model::Circuit& circuit,
                                                 const simulation::Settled& settled,
                                                 const std::vector<Channel>& channels, double every_s,
                                                 double seconds);

/// Runs the course to `until_s` and samples every `every_s` (> 0) at whole multiples of it: from 0 s,
/// or what comes after now.
/// `progress`, where given, hears of every sample's time.
tl::expected<Recording, Diagnostics> record(simulation::Course& course, const std::vector<Channel>& channels,
                                            double every_s, double until_s,
                                            const std::function<void(double)>& progress = {});

}  // namespace halfsplit::instruments
