#include "engine/diagnosis/swing.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/simulation/course.h"

namespace halfsplit::diagnosis {

namespace {

/// Of small voltages, such as drops, half of them counts, and what a meter hardly shows does not.
constexpr double kLeastShare = 0.5;
/// Up, down and up again: once there and back may be a relay that lets go.
constexpr int kLeastCrossings = 3;

int crossings_of(std::span<const double> volts, double level_v) {
    int count = 0;
    for (std::size_t i = 1; i < volts.size(); ++i)
        if ((volts[i] > level_v) != (volts[i - 1] > level_v)) ++count;
    return count;
}

}  // namespace

Swing swing_of(std::span<const double> volts, double hardly_shown) {
    const auto [least, most] = std::ranges::minmax_element(volts);
    Swing swing{*least, *most, crossings_of(volts, (*least + *most) / 2), false};
    const double share_v = kLeastShare * std::max(std::abs(swing.least_v), std::abs(swing.most_v));
    swing.pulses = swing.most_v - swing.least_v > std::min(kLeastSwingV, std::max(share_v, hardly_shown)) &&
                   swing.crossings >= kLeastCrossings;
    return swing;
}

double while_up(std::span<const double> values) {
    constexpr double kClearly = 0.05;  // of the way up: an inrush is about ten times what follows
    const auto size = [](double value) { return std::abs(value); };
    const auto [least, most] = std::ranges::minmax_element(values, {}, size);
    const double clearly_up = size(*least) + kClearly * (size(*most) - size(*least));
    std::vector<double> up;
    std::ranges::copy_if(values, std::back_inserter(up),
                         [&](double value) { return size(value) >= clearly_up; });
    const auto middle = up.begin() + std::ssize(up) / 2;
    std::ranges::nth_element(up, middle, {}, size);
    return *middle;
}

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
