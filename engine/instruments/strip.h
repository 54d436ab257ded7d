#pragma once

#include <optional>
#include <vector>

#include "engine/instruments/recorder.h"

namespace halfsplit::instruments {

/// What a recorder has kept, to be looked at with cursors.
struct Strip {
    std::vector<Channel> channels;
    std::vector<double> time_s;               ///< never falling; twice the same where something jumped
    std::vector<std::vector<double>> values;  ///< by channel, V or A; NaN while the channel was not on yet
};

Strip strip_of(const std::vector<Channel>& channels, const Recording& recording);

/// At a time, on the straight line between the samples around it; NaN where nothing was recorded.
double value_at(const Strip& strip, std::size_t channel, double time_s);

struct Swept {
    double least = 0;
    double most = 0;
};
/// What a channel went through from one time to another, both included; nullopt where nothing was recorded.
std::optional<Swept> swept(const Strip& strip, std::size_t channel, double from_s, double to_s);

/// When a channel rose through the middle of what it swept from one time to another, having been well below
/// it: whatever comes and goes does so once a round.
std::vector<double> rises(const Strip& strip, std::size_t channel, double from_s, double to_s);

/// The first sample that is not before that time; the count of samples where all are.
std::size_t first_from(const Strip& strip, double time_s);

}  // namespace halfsplit::instruments
