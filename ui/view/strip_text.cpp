#include "ui/view/strip_text.h"

#include <algorithm>
#include <cmath>

#include "engine/model/structure.h"
#include "ui/view/table.h"

namespace halfsplit::view {

namespace {

/// So that three figures count.
int decimals_for(double size) {
    return size >= 100 ? 0 : size >= 10 ? 1 : 2;
}

}  // namespace

std::string channel_text(const instruments::Channel& channel) {
    const bool has_other = !channel.is_current && channel.against != model::kBodyId;
    return has_other ? channel.name + " to " + channel.against : channel.name;
}

std::string seconds_text(double seconds) {
    constexpr double kMillisecondsInS = 1000;
    if (std::abs(seconds) >= 0.1 || seconds == 0) return fixed(seconds, 3) + " s";
    return fixed(kMillisecondsInS * seconds, 2) + " ms";
}

std::string rate_text(double seconds) {
    if (seconds == 0) return "";
    const double rate_hz = 1 / std::abs(seconds);
    return fixed(rate_hz, decimals_for(rate_hz)) + " Hz";
}

std::string channel_value_text(const instruments::Channel& channel, double value) {
    if (std::isnan(value)) return "-";
    return channel.is_current ? amperes_text(value) : volts_text(value);
}

std::vector<CursorReading> cursor_readings(const instruments::Strip& strip, double first_s, double second_s) {
    std::vector<CursorReading> found;
    for (std::size_t i = 0; i < strip.channels.size(); ++i) {
        const instruments::Channel& channel = strip.channels[i];
        const double at_first = value_at(strip, i, first_s);
        const double at_second = value_at(strip, i, second_s);
        CursorReading reading{channel_text(channel), channel_value_text(channel, at_first),
                              channel_value_text(channel, at_second),
                              channel_value_text(channel, at_second - at_first), ""};
        if (const auto between = swept(strip, i, std::min(first_s, second_s), std::max(first_s, second_s)))
            reading.swept = channel_value_text(channel, between->least) + " to " +
                            channel_value_text(channel, between->most);
        found.push_back(std::move(reading));
    }
    return found;
}

}  // namespace halfsplit::view
