#pragma once

#include <string>
#include <vector>

#include "engine/instruments/strip.h"

namespace halfsplit::view {

/// "K2.85", "M3.1 to M3.2", "W31".
std::string channel_text(const instruments::Channel& channel);

/// "0.667 s", "17.86 ms".
std::string seconds_text(double seconds);
/// How often that is in a second: "1.50 Hz"; "" of no time at all.
std::string rate_text(double seconds);
/// "12.31 V", "45 mA"; "-" where nothing was recorded.
std::string channel_value_text(const instruments::Channel& channel, double value);

/// What one channel shows at two cursors.
struct CursorReading {
    std::string channel;
    std::string at_first;
    std::string at_second;
    std::string difference;  ///< from the first to the second
    std::string swept;       ///< least and most between them: "0 to 12.31 V"
};
std::vector<CursorReading> cursor_readings(const instruments::Strip& strip, double first_s, double second_s);

}  // namespace halfsplit::view
