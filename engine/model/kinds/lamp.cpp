#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// Bulbs are made to within 6 % of their watts (main filament of P21/5W, Directive 97/24/EC).
constexpr double kBulbTolerancePercent = 6;

NumberSpec watts(std::string_view name, double fallback, std::string_view text) {
    return {.name = name,
            .unit = "W",
            .fallback = fallback,
            .low = 0.05,
            .high = 500,
            .tolerance_percent = kBulbTolerancePercent,
            .text = text,
            .required = fallback != fallback};
}

NumberSpec rated_v(double fallback) {
    return {.name = "rated-v",
            .unit = "V",
            .fallback = fallback,
            .low = 1,
            .high = 60,
            .text = "voltage at which the ratings hold"};
}

NumberSpec cold_ratio() {
    return {.name = "cold-ratio",
            .unit = "",
            .fallback = 0.1,
            .low = 0.03,
            .high = 0.5,
            .tolerance_percent = 20,
            .text =
                "resistance cold against hot: a tenth, which is why an ohmmeter shows so little and the "
                "inrush is "
                "so large"};
}

Filament filament(const PartView& part, std::string_view watts_name) {
    return {.rated_v = part.number("rated-v"),
            .rated_w = part.number(watts_name),
            .cold_ratio = part.number("cold-ratio")};
}

// How long a filament takes to warm up: thicker ones hold more heat for each watt they radiate. A stop lamp
// of 21 W needs some 0.2 s to nine tenths of its light; from memory.
constexpr double kWarmUpAt1WS = 0.012;

Element bulb(std::string name, int from, int to, const Filament& law) {
    return {.name = std::move(name),
            .from = from,
            .to = to,
            .law = law,
            .store = FilamentHeat{kWarmUpAt1WS * std::sqrt(law.rated_w)}};
}

Electrics lamp_electrics(const PartView& part) {
    return {.elements = {bulb("filament", part.pin("1"), part.pin("2"), filament(part, "rated-w"))},
            .triggers = {}};
}

Electrics twin_lamp_electrics(const PartView& part) {
    const int ground = part.pin("31");
    return {.elements = {bulb("filament-a", part.pin("a"), ground, filament(part, "a-w")),
                         bulb("filament-b", part.pin("b"), ground, filament(part, "b-w"))},
            .triggers = {}};
}

/// Light-emitting diodes in a row: about one chip for each 2 V, each with an emission coefficient of about 2
/// (from memory), so the whole string's slope is one thermal voltage for each volt of forward voltage.
Electrics led_electrics(const PartView& part) {
    const double forward_v = part.number("forward-v");
    const double rated_a = part.number("rated-a");
    const double series_v = std::max(part.number("rated-v") - forward_v, 0.01 * part.number("rated-v"));
    const Junction string =
        junction_through(forward_v, rated_a, forward_v * thermal_voltage_v(kRoomTemperatureDegc));
    const int inside = part.pin_count();
    return {.elements = {{"string", part.pin("+"), inside, string},
                         {"series", inside, part.pin("-"), Resistance{series_v / rated_a}}},
            .triggers = {},
            .inner_nodes = 1};
}

constexpr std::string_view kBurntOut = "Burnt out: full voltage at the holder, no current, dark.";
constexpr std::string_view kBridged = "Bridged in the bulb or holder, by the value: the fuse blows.";

}  // namespace

const PartKind& lamp() {
    static const PartKind kind{
        .element = "lamp",
        .letter = "E",
        .title = "Filament lamp",
        .text =
            "A bulb. Its resistance follows the heat of its filament: cold a tenth of hot, and at half the "
            "voltage "
            "it still draws two thirds of the current but is almost dark.",
        .pins = {{"1", "supply side"}, {"2", "ground side"}},
        .numbers = {watts("rated-w", std::numeric_limits<double>::quiet_NaN(), "power at the rated voltage"),
                    rated_v(12), cold_ratio()},
        .words = {},
        .conditions = {},
        .faults = {open_fault("filament", {4, kBurntOut}), short_fault("filament", {0.1, kBridged}),
                   drift_fault("rated-w", 0.6,
                               {0.3,
                                "The wrong bulb is fitted: its power differs by the factor. "
                                "Dimmer or brighter than its partner, and the flasher or the "
                                "bulb check may complain."})},
        .electrics = lamp_electrics};
    return kind;
}

const PartKind& twin_lamp() {
    static const PartKind kind{
        .element = "twin-lamp",
        .letter = "E",
        .title = "Twin-filament lamp",
        .text =
            "A bulb with two filaments on one ground contact, as stop and tail. With the ground lost, "
            "current for "
            "the one flows back through the other.",
        .pins = {{"a", "first filament, the stronger"}, {"b", "second filament"}, {"31", "common ground"}},
        .numbers = {watts("a-w", 21, "power of filament a at the rated voltage"),
                    watts("b-w", 5, "power of filament b at the rated voltage"), rated_v(12), cold_ratio()},
        .words = {},
        .conditions = {},
        .faults = {open_fault("filament-a", {2, kBurntOut, "filament-a"}),
                   open_fault("filament-b", {2, kBurntOut, "filament-b"}),
                   short_fault("filament-a", {0.05, kBridged, "filament-a"}),
                   short_fault("filament-b", {0.05, kBridged, "filament-b"})},
        .electrics = twin_lamp_electrics};
    return kind;
}

const PartKind& led_lamp() {
    static const PartKind kind{
        .element = "led-lamp",
        .letter = "E",
        .title = "LED lamp",
        .text =
            "Light-emitting diodes in a row with a series resistor. Dark below its forward voltage, and "
            "faintly lit "
            "by currents a bulb would not show.",
        .pins = {{"+", "positive side"}, {"-", "ground side"}},
        .numbers = {rated_v(13.5),
                    {.name = "rated-a",
                     .unit = "A",
                     .fallback = 0.05,
                     .low = 1e-4,
                     .high = 20,
                     .tolerance_percent = 10,
                     .text = "current at the rated voltage"},
                    {.name = "forward-v",
                     .unit = "V",
                     .fallback = 6,
                     .low = 1,
                     .high = 59,
                     .tolerance_percent = 5,
                     .text = "of the diodes alone at the rated current; must be below the rated voltage"}},
        .words = {},
        .conditions = {},
        .faults = {open_fault("string", {0.5, "A diode or a solder joint is open: dark, no current."}),
                   short_fault("string",
                               {0.1, "The diodes are bridged, by the value: dark, with too much current."}),
                   drift_fault("rated-a", 0.5,
                               {0.3,
                                "Aged or partly failed: current and light differ by the "
                                "factor."})},
        .electrics = led_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
