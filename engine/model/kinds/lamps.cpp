#include <cmath>

#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/junction.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Electrics lamp_electrics(const PartView& lamp) {
    const Filament filament{lamp.number("rated-v"), lamp.number("rated-w"), lamp.number("cold-ratio")};
    return {{{"filament", lamp.pin("1"), lamp.pin("2"), filament}}, {}, 0};
}

Electrics twin_electrics(const PartView& lamp) {
    const auto filament = [&](const char* watts) {
        return Filament{lamp.number("rated-v"), lamp.number(watts), lamp.number("cold-ratio")};
    };
    return {{{"filament-a", lamp.pin("a"), lamp.pin("31"), filament("a-w")},
             {"filament-b", lamp.pin("b"), lamp.pin("31"), filament("b-w")}},
            {},
            0};
}

/// A string of diodes drops about 2 V each at a slope near 50 mV each (emission coefficient 2, from memory),
/// so the string's slope is a fortieth of its forward voltage.
constexpr double kSlopeShare = 1.0 / 40;

Electrics led_electrics(const PartView& lamp) {
    const double forward_v = lamp.number("forward-v");
    const double rated_a = lamp.number("rated-a");
    const int inner = lamp.pin_count();
    const double series_ohm = std::max((lamp.number("rated-v") - forward_v) / rated_a, 0.1);
    return {{{"string", lamp.pin("+"), inner, junction_through(forward_v, rated_a, forward_v * kSlopeShare)},
             {"series", inner, lamp.pin("-"), Resistance{series_ohm}}},
            {},
            1};
}

/// "about a tenth of hot" for vehicle bulbs: kfz-tech.de, Gluehlampe.
NumberSpec cold_ratio() {
    return {"cold-ratio",
            "",
            0.1,
            0.02,
            1,
            20,
            "Cold resistance as a share of the hot one: about a tenth, halogen bulbs a fifteenth."};
}
NumberSpec rated_v() {
    return {"rated-v", "V", 12, 1, 48, 0, "The voltage its watts are given at."};
}

FaultSpec filament_open(std::string_view element) {
    return {"open", element, OpenElement{element}, "", 0, 0, 0, 6, "This filament is burnt out."};
}

}  // namespace

const PartKind& lamp_kind() {
    static const PartKind kind{
        .element = "lamp",
        .letter = "E",
        .title = "Lamp",
        .text =
            "Filament bulb: hot current goes with voltage to the power 0.55; cold it has a tenth of its hot "
            "resistance, so it joins circuits that are off.",
        .pins = {{"1", "one contact"}, {"2", "other contact"}},
        .numbers = {{"rated-w", "W", NAN, 0.05, 500, 6, "Power at its rated voltage.", true},
                    rated_v(),
                    cold_ratio()},
        .words = {{"category",
                   {},
                   "",
                   "Category of the bulb as UN Regulation 37 names it (W5W, P21W); information only."}},
        .faults = {open_fault("filament", 6, "The filament is burnt out."),
                   short_fault("filament", 0.1, "The bulb or its holder is short-circuited."),
                   drift_fault("rated-w", 0.5, 0.5, "Wrong bulb fitted.")},
        .electrics = &lamp_electrics,
    };
    return kind;
}

const PartKind& twin_lamp_kind() {
    static const PartKind kind{
        .element = "twin-lamp",
        .letter = "E",
        .title = "Lamp with two filaments",
        .text =
            "Two filaments with one return, as in brake and tail lamps or headlamps. Lose the return and "
            "current goes through both in series.",
        .pins = {{"a", "first filament"}, {"b", "second filament"}, {"31", "common return"}},
        .numbers = {{"a-w", "W", 21, 0.05, 500, 6, "Power of the first filament."},
                    {"b-w", "W", 5, 0.05, 500, 10, "Power of the second."},
                    rated_v(),
                    cold_ratio()},
        .words = {{"category",
                   {},
                   "",
                   "Category of the bulb as UN Regulation 37 names it (P21/5W, H4); information only."}},
        .faults = {filament_open("filament-a"),
                   filament_open("filament-b"),
                   {"short", "filament-a", ShortElement{"filament-a"}, "ohm", 0.05, 0.001, 1000, 0.1,
                    "The first filament's contact touches the return."},
                   {"short", "filament-b", ShortElement{"filament-b"}, "ohm", 0.05, 0.001, 1000, 0.1,
                    "The second filament's contact touches the return."}},
        .electrics = &twin_electrics,
    };
    return kind;
}

const PartKind& led_lamp_kind() {
    static const PartKind kind{
        .element = "led-lamp",
        .letter = "E",
        .title = "LED lamp",
        .text =
            "A string of light-emitting diodes behind a resistor: light falls off quickly below its forward "
            "voltage, nothing flows backwards.",
        .pins = {{"+", "positive"}, {"-", "negative"}},
        .numbers = {{"rated-a", "A", 0.05, 1e-4, 20, 10, "Current at its rated voltage."},
                    {"rated-v", "V", 13.5, 1, 48, 0, "The voltage its current is given at."},
                    {"forward-v", "V", 6, 1, 40, 5, "What the string drops at rated current."}},
        .faults = {open_fault("string", 1, "One diode of the string is open: all of it is dark."),
                   short_fault("string", 0.2, "Diodes of the string are short-circuited."),
                   drift_fault("rated-a", 0.3, 0.3, "Aged: much less light and current.")},
        .electrics = &led_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
