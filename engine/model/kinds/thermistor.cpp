#include "engine/base/constants.h"
#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

double felt_degc(const PartView& part) {
    return part.quantity(part.word("quantity"), kRoomTemperatureDegc);
}

Electrics resistance_of(const PartView& part, double ohm) {
    return {.elements = {{"resistance", part.pin("1"), part.pin("2"), Resistance{ohm}}}, .triggers = {}};
}

Electrics ntc_electrics(const PartView& part) {
    return resistance_of(part, ntc_ohm(part.number("ohm-25"), part.number("b-k"), felt_degc(part)));
}

Electrics ptc_electrics(const PartView& part) {
    return resistance_of(part,
                         ptc_ohm(part.number("ohm-25"), part.number("alpha-percent-per-k"), felt_degc(part)));
}

std::vector<PinSpec> pins() {
    return {{"1", "one end"}, {"2", "the other end"}};
}

NumberSpec ohm_25() {
    return {.name = "ohm-25",
            .unit = "ohm",
            .low = 0.1,
            .high = 1e7,
            .tolerance_percent = 5,
            .text = "at 25 degC",
            .required = true};
}

std::vector<WordSpec> words() {
    return {{.name = "quantity",
             .choices = {},
             .fallback = "ambient",
             .text = "the temperature it feels; 20 degC where the circuit has no such quantity",
             .refers_to = "quantity"}};
}

std::vector<FaultSpec> faults(std::string_view open_text, std::string_view short_text) {
    return {
        open_fault("resistance", {0.6, open_text}), short_fault("resistance", {0.2, short_text}),
        drift_fault("ohm-25", 2, {0.3, "Aged: its resistance is wrong by the factor at every temperature."})};
}

}  // namespace

const PartKind& ntc_thermistor() {
    static const PartKind kind{
        .element = "ntc-thermistor",
        .letter = "R",
        .title = "NTC thermistor",
        .text = "A resistance that falls as it gets warmer: R25 exp(B (1/T - 1/298.15 K)).",
        .pins = pins(),
        .numbers = {ohm_25(),
                    {.name = "b-k",
                     .unit = "K",
                     .fallback = 3950,
                     .low = 500,
                     .high = 8000,
                     .tolerance_percent = 1,
                     .text = "how steeply it falls: the B value of its data sheet"}},
        .words = words(),
        .conditions = {},
        .faults = faults("Broken: reads like extreme cold.", "Bridged: reads like extreme heat."),
        .electrics = ntc_electrics};
    return kind;
}

const PartKind& ptc_thermistor() {
    static const PartKind kind{
        .element = "ptc-thermistor",
        .letter = "R",
        .title = "PTC thermistor",
        .text =
            "A resistance that rises with temperature in a straight line, as silicon and metal sensors do.",
        .pins = pins(),
        .numbers = {ohm_25(),
                    {.name = "alpha-percent-per-k",
                     .unit = "%/K",
                     .fallback = 0.8,
                     .low = 0.01,
                     .high = 5,
                     .tolerance_percent = 5,
                     .text = "rise for each kelvin, of the value at 25 degC"}},
        .words = words(),
        .conditions = {},
        .faults = faults("Broken: reads like extreme heat.", "Bridged: reads like extreme cold."),
        .electrics = ptc_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
