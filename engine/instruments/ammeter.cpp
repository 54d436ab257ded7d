#include <array>
#include <cmath>

#include "engine/base/number.h"
#include "engine/instruments/display.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// An ammeter input: shunt with its leads, and the fuse that protects it.
struct Input {
    double shunt_ohm;
    double fuse_a;
    std::span<const Range> ranges;
};

constexpr std::array kAmpereRanges{Range{5.999, 1e-3, "A", 1, 3}, Range{19.99, 1e-2, "A", 1, 2}};
constexpr std::array kMilliampereRanges{Range{0.05999, 1e-5, "mA", 1000, 2},
                                        Range{0.5999, 1e-4, "mA", 1000, 1}};
/// +-(1 % + 3 digits); 10 A input about 20 mohm with its leads, milliampere input of the order of 1 ohm:
/// common practice.
constexpr Accuracy kAmpereAccuracy{1, 3};
constexpr Input kAmpereInput{0.02, 10, kAmpereRanges};
constexpr Input kMilliampereInput{1.5, 0.4, kMilliampereRanges};

Measured read_in_series(const Bench& bench, const Leads& leads, const Input& input) {
    if (const auto checked = check_series_place(bench, leads.at); !checked)
        return tl::unexpected(checked.error());
    const auto connected = bench.with(network::Insertion{leads.at, input.shunt_ohm, false});
    if (!connected) return tl::unexpected(connected.error());
    Reading reading;
    double current_a = current_through(*connected, leads.at);
    if (std::abs(current_a) > input.fuse_a) {
        reading.cautions.push_back("the meter's " + number_text(input.fuse_a) +
                                   " A fuse has blown: the circuit now stands open there");
        current_a = 0;
    }
    show(current_a, input.ranges, kAmpereAccuracy, "A", reading);
    if (!reading.cautions.empty()) reading.valid = false;
    return reading;
}

Measured read_amperes(const Bench& bench, const Leads& leads) {
    return read_in_series(bench, leads, kAmpereInput);
}
Measured read_milliamperes(const Bench& bench, const Leads& leads) {
    return read_in_series(bench, leads, kMilliampereInput);
}

/// A clamp for direct current: +-(2 % + 3 digits), of which the digits are what its zero drifts (common
/// practice).
constexpr std::array kClampRanges{Range{59.99, 1e-2, "A", 1, 2}, Range{599.9, 1e-1, "A", 1, 1}};
constexpr Accuracy kClampAccuracy{2, 3};

Measured read_clamp(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_series_place(bench, leads.at); !checked)
        return tl::unexpected(checked.error());
    Reading reading;
    show(current_through(bench.settled, leads.at), kClampRanges, kClampAccuracy, "A", reading);
    return reading;
}

}  // namespace

Instrument ammeter() {
    return {"ammeter", "Ammeter, 10 A",
            "In series, 20 mohm with its leads, behind a 10 A fuse that blows when the current is too much "
            "for it.",
            Connection::in_series, &read_amperes};
}

Instrument milliammeter() {
    return {"milliammeter", "Ammeter, milliamperes",
            "In series, 1.5 ohm, behind a 0.4 A fuse: for quiescent currents, once the circuit sleeps.",
            Connection::in_series, &read_milliamperes};
}

Instrument clamp() {
    return {"clamp", "Clamp meter",
            "Around a wire, parts nothing; steps of 10 mA and a zero that drifts by three of them.",
            Connection::around_wire, &read_clamp};
}

}  // namespace halfsplit::instruments
