#include "ui/window/practise/recorded_strip.h"

#include <cmath>

#include "engine/base/number.h"
#include "engine/practice/session/reading_in_time.h"

namespace halfsplit::window {

std::optional<instruments::Strip> recorded_strip(const practice::ServicedVehicle& before,
                                                 const practice::Action& action) {
    if (action.verb != practice::Verb::record) return std::nullopt;
    const auto seconds = read_number(action.arguments[1]);
    const auto channels = instruments::channels_for(before.circuit(), action.arguments[0]);
    if (!seconds || !channels) return std::nullopt;
    const auto recording = instruments::record_from(before.circuit(), before.settled(), *channels,
                                                    practice::sampled_every_s(*seconds), *seconds);
    if (!recording) return std::nullopt;
    instruments::Strip strip = instruments::strip_of(*channels, *recording);
    for (std::size_t i = 0; i < channels->size(); ++i) {
        const double step = practice::extremes((*channels)[i], 0, 0).front().doubt;
        for (double& value : strip.values[i]) value = step * std::round(value / step);
    }
    return strip;
}

}  // namespace halfsplit::window
