#include <cmath>

#include "engine/instruments/display.h"
#include "engine/instruments/kinds.h"
#include "engine/instruments/probing.h"

namespace halfsplit::instruments {

namespace {

/// A bulb of about 4 W (a third of an ampere), as design of such lamps goes: common practice.
constexpr double kRatedW = 4;
constexpr double kRatedV = 12;
/// Light goes with voltage to the power 3.4 (lamp re-rating, Fink & Beaty 11th ed. p. 22-8).
constexpr double kLightExponent = 3.4;

/// Words for what an eye makes of the light, by its share of that at rated voltage (from memory).
std::string brightness(double light) {
    if (light < 0.001) return "dark";
    if (light < 0.05) return "glows faintly";
    if (light < 0.5) return "lights dimly";
    return "lights brightly";
}

std::string percent(double light) {
    return std::to_string(std::lround(100 * light)) + " % of its full light";
}

Measured light_lamp(const Bench& bench, const Leads& leads) {
    if (const auto checked = check_points(bench, leads); !checked) return tl::unexpected(checked.error());
    const auto connected =
        bench.with({{"test-lamp", leads.at, leads.against, model::Filament{kRatedV, kRatedW, 0.1}}});
    if (!connected) return tl::unexpected(connected.error());
    const double volts = voltage_between(*connected, leads.at, leads.against);
    const double watts = volts * current_through(*connected, "test-lamp");
    const double light = std::pow(std::abs(volts) / kRatedV, kLightExponent);
    Reading reading;
    reading.value = std::round(100 * watts) / 100;
    reading.low = reading.high = reading.value;
    reading.unit = "W";
    reading.shown = brightness(light);
    if (light >= 0.001) reading.shown += ", " + percent(light);
    if (is_electronic(bench.circuit, leads.at) || is_electronic(bench.circuit, leads.against))
        reading.cautions.emplace_back(
            "a bulb draws a third of an ampere: not on senders or control-unit signals");
    return reading;
}

}  // namespace

Instrument test_lamp() {
    return {"test-lamp", "Test lamp",
            "4 W bulb, its clip on ground or supply: draws a third of an ampere, so it stays dark behind a "
            "bad contact.",
            Connection::two_points, &light_lamp};
}

}  // namespace halfsplit::instruments
