#include <cmath>

#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// Two light-emitting diodes back to back behind a resistor: about 10 mA at 12 V (LED test lamps take 1 to 20
/// mA, from memory). Each diode drops about 1.9 V at 10 mA with an emission coefficient near 2 (from memory).
constexpr double kSeriesOhm = 1000;
constexpr model::Junction kDiode{1.1e-18, 0.052};
constexpr double kFaintA = 0.2e-3;
constexpr double kClearA = 1e-3;

Measured light_diode(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    const auto connected = bench.with({{"led-test-lamp", leads.at, "*led", model::Resistance{kSeriesOhm}},
                                       {"led-forward", "*led", leads.against, kDiode},
                                       {"led-reverse", leads.against, "*led", kDiode}});
    if (!connected) return tl::unexpected(connected.error());
    const double current_a = current_through(*connected, "led-test-lamp");
    Reading reading;
    reading.value = std::round(1e5 * current_a) / 1e5;
    reading.low = reading.high = reading.value;
    reading.unit = "A";
    const std::string polarity = current_a > 0 ? "the tip is plus" : "the tip is minus";
    if (std::abs(current_a) < kFaintA)
        reading.shown = "dark";
    else
        reading.shown = (std::abs(current_a) < kClearA ? "glows faintly, " : "lights, ") + polarity;
    return reading;
}

}  // namespace

Instrument led_test_lamp() {
    return {"led-test-lamp", "LED test lamp",
            "Two light-emitting diodes back to back behind 1 kohm: about 10 mA, shows polarity, spares "
            "electronics, but "
            "still lights behind contacts that could not carry a load.",
            Connection::two_points, &light_diode};
}

}  // namespace halfsplit::instruments
