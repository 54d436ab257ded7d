#include "engine/diagnosis/sheet/swing.h"

#include <algorithm>
#include <cmath>

#include "engine/simulation/course.h"

namespace halfsplit::diagnosis {

namespace {

/// Two rounds of the slowest interval a wiper switch has (common practice: 5 to 6 s).
constexpr double kWatchS = 12;
/// Not a whole part of any rate somebody would give a sender.
constexpr double kLookEveryS = 0.0073;
/// Of small voltages, such as drops, half of them counts, and what a meter hardly shows does not.
constexpr double kLeastShare = 0.5;
constexpr double kHardlyShownV = 0.002;
/// Up, down and up again: once there and back may be a relay that lets go.
constexpr int kLeastCrossings = 3;

int crossings(const std::vector<double>& volts, double level_v) {
    int count = 0;
    for (std::size_t i = 1; i < volts.size(); ++i)
        if ((volts[i] > level_v) != (volts[i - 1] > level_v)) ++count;
    return count;
}

Swing swing_of(const std::vector<double>& volts) {
    const auto [least, most] = std::ranges::minmax_element(volts);
    Swing swing{*least, *most, false};
    const double share_v = kLeastShare * std::max(std::abs(swing.least_v), std::abs(swing.most_v));
    swing.pulses = swing.most_v - swing.least_v > std::min(kLeastSwingV, std::max(share_v, kHardlyShownV)) &&
                   crossings(volts, (swing.least_v + swing.most_v) / 2) >= kLeastCrossings;
    return swing;
}

}  // namespace

tl::expected<std::vector<Swing>, Diagnostics> watch(const model::Circuit& circuit,
                                                    const simulation::Settled& settled,
                                                    const std::vector<Observation>& observations) {
    std::vector<Swing> swings(observations.size());
    if (!settled.living || observations.empty()) return swings;
    auto course = simulation::Course::begin(circuit, settled, {});
    if (!course) return tl::unexpected(course.error());
    std::vector<std::vector<double>> volts(observations.size());
    const double begin_s = course->now_s();
    for (int look = 0; look * kLookEveryS < kWatchS && !course->is_steady(); ++look) {
        if (auto run = course->run_until(begin_s + look * kLookEveryS); !run)
            return tl::unexpected(run.error());
        for (std::size_t i = 0; i < observations.size(); ++i)
            volts[i].push_back(course->potential_v(observations[i].at) -
                               course->potential_v(observations[i].against));
    }
    for (std::size_t i = 0; i < observations.size(); ++i)
        if (!volts[i].empty()) swings[i] = swing_of(volts[i]);
    return swings;
}

}  // namespace halfsplit::diagnosis
