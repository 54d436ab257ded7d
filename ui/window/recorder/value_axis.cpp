#include "ui/window/recorder/value_axis.h"

#include <algorithm>
#include <cmath>

#include "ui/view/ticks.h"

namespace halfsplit::window {

ValueAxis axis_for(const instruments::Strip& strip, const ChartView& view, bool of_currents, int steps) {
    // Less is not spread over the whole height: what rests would seem to shake.
    const double least_span = of_currents ? 0.02 : 0.2;
    double least = 0;
    double most = 0;
    for (std::size_t i = 0; i < strip.channels.size(); ++i) {
        if (strip.channels[i].is_current != of_currents) continue;
        if (const auto all = instruments::swept(strip, i, view.from_s(), view.to_s())) {
            least = std::min(least, all->least);
            most = std::max(most, all->most);
        }
    }
    if (most - least < least_span) most = least + least_span;
    constexpr double kSmall = 1e-6;  // of a step: rounding is no reason for one more
    const double step = view::tick_step(most - least, steps);
    return {step * std::floor(least / step + kSmall), step * std::ceil(most / step - kSmall), step};
}

}  // namespace halfsplit::window
