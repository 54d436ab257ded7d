#include <algorithm>

#include "engine/base/constants.h"
#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

double felt_degc(const PartView& part) {
    return std::clamp(part.quantity(part.word("quantity"), kRoomTemperatureDegc), kThermistorColdestDegc,
                      kThermistorHottestDegc);
}

/// What it feels is that of the air around it; its own current makes it warmer.
Electrics resistance_of(const PartView& part, double ohm, const ResistanceCurve& curve) {
    constexpr double kMilli = 1000;
    const Warming warming{.kelvin_per_watt = kMilli / part.number("dissipation-mw-per-k"),
                          .tau_s = part.number("thermal-s"),
                          .curve = curve};
    return {.elements = {{.name = "resistance",
                          .from = part.pin("1"),
                          .to = part.pin("2"),
                          .law = Resistance{ohm},
                          .change = warming}},
            .triggers = {}};
}

Electrics ntc_electrics(const PartView& part) {
    const double b_k = part.number("b-k");
    return resistance_of(part, ntc_ohm(part.number("ohm-25"), b_k, felt_degc(part)),
                         NtcCurve{.b_k = b_k, .at_k = felt_degc(part) + kZeroCelsiusK});
}

Electrics ptc_electrics(const PartView& part) {
    const double percent_per_k = part.number("alpha-percent-per-k");
    const double felt_ohm = ptc_ohm(part.number("ohm-25"), percent_per_k, felt_degc(part));
    const double ohm_per_k = part.number("ohm-25") * percent_per_k / 100;
    return resistance_of(part, felt_ohm, MetalCurve{ohm_per_k / felt_ohm});
}

/// A bead or a disc on thin wires in still air; from memory.
NumberSpec dissipation() {
    return {.name = "dissipation-mw-per-k",
            .unit = "mW/K",
            .fallback = 5,
            .low = 0.01,
            .high = 1e5,
            .tolerance_percent = 20,
            .text = "what warms it by one kelvin: the dissipation factor of its data sheet"};
}
NumberSpec thermal_time() {
    return {.name = "thermal-s",
            .unit = "s",
            .fallback = 15,
            .low = 0.01,
            .high = 1e5,
            .tolerance_percent = 20,
            .text = "its thermal time constant, from the same sheet"};
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
                     .text = "how steeply it falls: the B value of its data sheet"},
                    dissipation(),
                    thermal_time()},
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
                     .text = "rise for each kelvin, of the value at 25 degC"},
                    dissipation(),
                    thermal_time()},
        .words = words(),
        .conditions = {},
        .faults = faults("Broken: reads like extreme heat.", "Bridged: reads like extreme cold."),
        .electrics = ptc_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
