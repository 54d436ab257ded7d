#include "engine/instruments/strip.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace halfsplit::instruments {

namespace {

/// Of the swing, that a value has to have been below the middle for a rise to count: noise is none.
constexpr double kWellBelow = 0.25;

}  // namespace

Strip strip_of(const std::vector<Channel>& channels, const Recording& recording) {
    Strip strip{channels, recording.time_s, std::vector<std::vector<double>>(channels.size())};
    for (const std::vector<double>& row : recording.rows)
        for (std::size_t channel = 0; channel < channels.size(); ++channel)
            strip.values[channel].push_back(row[channel]);
    return strip;
}

std::size_t first_from(const Strip& strip, double time_s) {
    return static_cast<std::size_t>(std::ranges::lower_bound(strip.time_s, time_s) - strip.time_s.begin());
}

double value_at(const Strip& strip, std::size_t channel, double time_s) {
    const std::vector<double>& values = strip.values[channel];
    const std::size_t after = first_from(strip, time_s);
    if (after == values.size()) return std::numeric_limits<double>::quiet_NaN();
    if (strip.time_s[after] == time_s) return values[after];
    if (after == 0) return std::numeric_limits<double>::quiet_NaN();
    const double share = (time_s - strip.time_s[after - 1]) / (strip.time_s[after] - strip.time_s[after - 1]);
    return values[after - 1] + share * (values[after] - values[after - 1]);
}

std::optional<Swept> swept(const Strip& strip, std::size_t channel, double from_s, double to_s) {
    std::optional<Swept> found;
    for (std::size_t i = first_from(strip, from_s); i < strip.time_s.size() && strip.time_s[i] <= to_s; ++i) {
        const double value = strip.values[channel][i];
        if (std::isnan(value)) continue;
        if (!found) found = Swept{value, value};
        found->least = std::min(found->least, value);
        found->most = std::max(found->most, value);
    }
    return found;
}

std::vector<double> rises(const Strip& strip, std::size_t channel, double from_s, double to_s) {
    std::vector<double> found;
    const auto all = swept(strip, channel, from_s, to_s);
    if (!all || all->most <= all->least) return found;
    const double middle = (all->least + all->most) / 2;
    const double well_below = middle - kWellBelow * (all->most - all->least);
    bool was_below = false;
    for (std::size_t i = first_from(strip, from_s); i < strip.time_s.size() && strip.time_s[i] <= to_s; ++i) {
        const double value = strip.values[channel][i];
        if (value <= well_below) was_below = true;
        if (!was_below || !(value >= middle)) continue;
        was_below = false;
        const double before = strip.values[channel][i - 1];
        const double share = value > before ? (middle - before) / (value - before) : 1;
        found.push_back(strip.time_s[i - 1] + share * (strip.time_s[i] - strip.time_s[i - 1]));
    }
    return found;
}

}  // namespace halfsplit::instruments
