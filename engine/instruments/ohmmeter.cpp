#include <array>
#include <cmath>

#include "engine/instruments/display.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// The meter's own source, and behind which resistance each range works; the leads' resistance is zeroed out.
/// 1 V keeps most silicon junctions from hiding a parallel path completely (multimeters use 0.5 to 3 V, from
/// memory).
constexpr double kSourceV = 1.0;
constexpr std::array kOhmRanges{Range{599.9, 0.1, "ohm", 1, 1},        Range{5999, 1, "kohm", 1e-3, 3},
                                Range{59990, 10, "kohm", 1e-3, 2},     Range{599900, 100, "kohm", 1e-3, 1},
                                Range{5.999e6, 1000, "Mohm", 1e-6, 3}, Range{59.99e6, 1e4, "Mohm", 1e-6, 2}};
/// +-(1 % + 3 digits): common practice for workshop multimeters.
constexpr Accuracy kOhmAccuracy{1, 3};
/// More than this between the leads before the meter is connected, and its own source no longer rules the
/// reading.
constexpr double kLiveV = 0.005;

Measured read_ohms(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    Reading reading;
    reading.unit = "ohm";
    if (std::abs(voltage_between(bench.settled, leads.at, leads.against)) > kLiveV) {
        reading.valid = false;
        reading.shown = "no valid reading";
        reading.cautions.emplace_back(
            "the circuit is live: switch it off and take it off the supply before measuring resistance");
        return reading;
    }
    for (std::size_t range = 0; range < kOhmRanges.size(); ++range) {
        const double series_ohm = kOhmRanges[range].full_scale;
        const auto connected =
            bench.with({{"ohmmeter", leads.at, leads.against, model::Source{kSourceV, series_ohm}}});
        if (!connected) return tl::unexpected(connected.error());
        const double current_a = -current_through(*connected, "ohmmeter");
        const double ohm =
            current_a <= 0 ? HUGE_VAL : voltage_between(*connected, leads.at, leads.against) / current_a;
        if (ohm <= kOhmRanges[range].full_scale) {
            show(ohm, std::span(kOhmRanges).subspan(range, 1), kOhmAccuracy, "ohm", reading);
            return reading;
        }
    }
    show(HUGE_VAL, kOhmRanges, kOhmAccuracy, "ohm", reading);
    return reading;
}

}  // namespace

Instrument ohmmeter() {
    return {"ohmmeter", "Ohmmeter",
            "Drives a small current of its own: only on a dead circuit, and every parallel path counts.",
            Connection::two_points, &read_ohms};
}

}  // namespace halfsplit::instruments
