#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/thermistor.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

constexpr double kSmallestOhm = 1e-4;

Electrics two_pins(const PartView& part, const char* name, double ohm) {
    return {{{name, part.pin("1"), part.pin("2"), Resistance{std::max(ohm, kSmallestOhm)}}}, {}, 0};
}

Electrics resistor_electrics(const PartView& part) {
    return two_pins(part, "resistance", part.number("ohm"));
}

Electrics pack_electrics(const PartView& part) {
    Electrics result;
    const auto add = [&](const char* name, const char* from, const char* to, const char* number) {
        if (part.has(number))
            result.elements.push_back({name, part.pin(from), part.pin(to), Resistance{part.number(number)}});
    };
    add("1-2", "1", "2", "ohm-1");
    add("2-3", "2", "3", "ohm-2");
    add("3-4", "3", "4", "ohm-3");
    return result;
}

Electrics variable_electrics(const PartView& part) {
    const double setting = part.word("quantity").empty() ? part.number("setting-percent")
                                                         : part.quantity(part.word("quantity"), 50);
    const double share = std::clamp(setting / 100, 0.0, 1.0);
    const double end_ohm = part.number("end-ohm");
    return {
        {{"track-a", part.pin("1"), part.pin("2"), Resistance{part.number("ohm") * share + end_ohm}},
         {"track-b", part.pin("2"), part.pin("3"), Resistance{part.number("ohm") * (1 - share) + end_ohm}}},
        {},
        0};
}

double temperature_of(const PartView& part) {
    return part.quantity(part.word("quantity"), kThermistorDegC);
}

Electrics ntc_electrics(const PartView& part) {
    return two_pins(part, "resistance",
                    ntc_ohm(part.number("ohm-25"), part.number("b-k"), temperature_of(part)));
}

/// A linear positive coefficient, never below a tenth of the value at 25 degC.
Electrics ptc_electrics(const PartView& part) {
    const double factor =
        1 + part.number("alpha-percent-per-k") / 100 * (temperature_of(part) - kThermistorDegC);
    return two_pins(part, "resistance", part.number("ohm-25") * std::max(factor, 0.1));
}

NumberSpec ohm_25() {
    return {"ohm-25", "ohm", NAN, 0.1, 1e7, 5, "Resistance at 25 degC.", true};
}
WordSpec felt_quantity() {
    return {
        "quantity", {}, "ambient", "The quantity it feels; 25 degC where the circuit has none of that name."};
}

std::vector<FaultSpec> resistor_faults(std::string_view number) {
    return {open_fault("resistance", 1, "Burnt out or broken."), short_fault("resistance", 0.1, "Bridged."),
            drift_fault(number, 2, 0.5, "Its value has changed.")};
}

FaultSpec section_fault(std::string_view element) {
    return {"open", element, OpenElement{element},
            "",     0,       0,
            0,      1,       "This section has burnt out: the speeds that need it are dead."};
}
FaultSpec section_drift(std::string_view element, std::string_view number) {
    return {"drift", element, ScaleNumber{number},
            "times", 2,       0.01,
            100,     0.3,     "This section's value has changed."};
}

std::vector<PinSpec> two_pin_specs() {
    return {{"1", "one end"}, {"2", "other end"}};
}

}  // namespace

const PartKind& resistor_kind() {
    static const PartKind kind{
        .element = "resistor",
        .letter = "R",
        .title = "Resistor",
        .text = "A fixed resistor.",
        .pins = two_pin_specs(),
        .numbers = {{"ohm", "ohm", NAN, kSmallestOhm, 1e9, 5, "Resistance.", true},
                    {"rated-w", "W", 5, 0.01, 10000, 0, "Power it bears."}},
        .faults = resistor_faults("ohm"),
        .electrics = &resistor_electrics,
    };
    return kind;
}

const PartKind& resistor_pack_kind() {
    static const PartKind kind{
        .element = "resistor-pack",
        .letter = "R",
        .title = "Resistor pack",
        .text =
            "Up to three resistors in a row with taps, as for the speeds of a blower. Left-out sections do "
            "not exist.",
        .pins = {{"1", "first tap"}, {"2", "second tap"}, {"3", "third tap"}, {"4", "fourth tap"}},
        .numbers = {{"ohm-1", "ohm", NAN, kSmallestOhm, 1e6, 5, "From 1 to 2.", true},
                    {"ohm-2", "ohm", NAN, kSmallestOhm, 1e6, 5, "From 2 to 3."},
                    {"ohm-3", "ohm", NAN, kSmallestOhm, 1e6, 5, "From 3 to 4."}},
        .faults = {section_fault("1-2"), section_fault("2-3"), section_fault("3-4"),
                   section_drift("1-2", "ohm-1"), section_drift("2-3", "ohm-2"),
                   section_drift("3-4", "ohm-3")},
        .electrics = &pack_electrics,
    };
    return kind;
}

const PartKind& variable_resistor_kind() {
    static const PartKind kind{
        .element = "variable-resistor",
        .letter = "R",
        .title = "Variable resistor",
        .text = "A track from 1 to 3 with a wiper on 2; at 0 % the wiper stands at 1.",
        .pins = {{"1", "start of the track"}, {"2", "wiper"}, {"3", "end of the track"}},
        .numbers = {{"ohm", "ohm", NAN, 0.1, 1e7, 10, "Of the whole track.", true},
                    {"setting-percent", "%", 50, 0, 100, 0,
                     "Where the wiper stands, where no quantity moves it."},
                    {"end-ohm", "ohm", 0.2, 0.001, 1000, 50, "What the wiper itself adds."}},
        .words =
            {{"quantity", {}, "", "The quantity, in per cent, that moves the wiper.", false, "quantity"}},
        .faults = {{"open", "track-a", OpenElement{"track-a"}, "", 0, 0, 0, 0.5,
                    "The track is worn through between 1 and the wiper."},
                   {"open", "track-b", OpenElement{"track-b"}, "", 0, 0, 0, 0.5,
                    "The track is worn through between the wiper and 3."},
                   drift_fault("ohm", 2, 0.3, "Its value has changed."),
                   {"contact-resistance", "", ScaleNumber{"end-ohm"}, "times", 500, 1, 1e6, 1,
                    "The wiper makes bad contact."}},
        .electrics = &variable_electrics,
    };
    return kind;
}

const PartKind& ntc_thermistor_kind() {
    static const PartKind kind{
        .element = "ntc-thermistor",
        .letter = "R",
        .title = "NTC thermistor",
        .text = "Resistance falls as it warms: R = R25 exp(B (1/T - 1/298.15 K)).",
        .pins = two_pin_specs(),
        .numbers = {ohm_25(), {"b-k", "K", 3950, 500, 10000, 1, "The B value."}},
        .words = {felt_quantity()},
        .faults = resistor_faults("ohm-25"),
        .electrics = &ntc_electrics,
    };
    return kind;
}

const PartKind& ptc_thermistor_kind() {
    static const PartKind kind{
        .element = "ptc-thermistor",
        .letter = "R",
        .title = "PTC thermistor",
        .text = "Resistance rises as it warms, in a straight line.",
        .pins = two_pin_specs(),
        .numbers = {ohm_25(),
                    {"alpha-percent-per-k", "%/K", 0.8, 0.01, 20, 5,
                     "How much it rises per kelvin, of the value at 25 degC."}},
        .words = {felt_quantity()},
        .faults = resistor_faults("ohm-25"),
        .electrics = &ptc_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
