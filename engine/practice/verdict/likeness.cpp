#include "engine/practice/verdict/likeness.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace halfsplit::practice {

namespace {

// From memory, and of the same kind as diagnosis::Assumptions: one answer in so many is misread; sound
// vehicles scatter by a share of the value; a fault's own numbers differ, so what it changes scatters too.
constexpr double kMisread = 0.04;
constexpr double kScatterShare = 0.02;
constexpr double kChangeShare = 0.08;
/// Of V, A or ohm: what contacts and zero offsets leave.
constexpr double kFloor = 0.005;
/// Over so many of its standard deviations a misread value lies anywhere.
constexpr double kMisreadWidth = 200;

const Observed* find_like(const std::vector<Observed>& all, const Observed& wanted, bool same_what) {
    const auto found = std::ranges::find_if(all, [&](const Observed& each) {
        return each.about == wanted.about && (!same_what || each.what == wanted.what);
    });
    return found == all.end() ? nullptr : &*found;
}

double log_of_numbers(const Observed& observed, const Observed& suspected, const Observed* sound) {
    const double change =
        sound != nullptr && sound->is_number() ? suspected.value - sound->value : suspected.value;
    const double sigma =
        std::sqrt(std::pow(observed.doubt, 2) / 3 + std::pow(kScatterShare * suspected.value, 2) +
                  std::pow(kChangeShare * change, 2) + kFloor * kFloor);
    const double off = (observed.value - suspected.value) / sigma;
    return std::log((1 - kMisread) * std::exp(-off * off / 2) + kMisread / kMisreadWidth);
}

/// Several things are often seen of one part: "turns forwards" and "stands still". Each is compared with the
/// same.
double log_of_one(const Observed& observed, const std::vector<Observed>& suspected,
                  const std::vector<Observed>& sound) {
    if (observed.is_number()) {
        const Observed* same = find_like(suspected, observed, true);
        if (same == nullptr || !same->is_number()) return std::log(kMisread);
        return log_of_numbers(observed, *same, find_like(sound, observed, true));
    }
    return find_like(suspected, observed, true) != nullptr ? std::log(1 - kMisread) : std::log(kMisread);
}

}  // namespace

double log_likeness(const std::vector<Observed>& observed, const std::vector<Observed>& suspected,
                    const std::vector<Observed>& sound) {
    double sum = 0;
    for (const Observed& each : observed) sum += log_of_one(each, suspected, sound);
    // What would have been seen and was not.
    for (const Observed& each : suspected) {
        const bool is_missing = find_like(observed, each, false) == nullptr;
        if (is_missing) sum += std::log(kMisread);
    }
    return sum;
}

}  // namespace halfsplit::practice
