#include "engine/base/constants.h"
#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics electrics(const PartView& part) {
    const double felt_degc = part.quantity(part.word("quantity"), kRoomTemperatureDegc);
    const double ohm = ntc_ohm(part.number("ohm-25"), part.number("b-k"), felt_degc);
    return {.elements = {{"ntc", part.pin("1"), part.pin("2"), Resistance{ohm}}}, .triggers = {}};
}

std::vector<FaultSpec> faults() {
    return {
        open_fault("ntc", {0.6, "Broken: reads like extreme cold."}),
        short_fault("ntc", {0.2, "Bridged, by the value: reads like extreme heat."}),
        drift_fault("ohm-25", 2, {0.3, "Aged: its resistance is wrong by the factor at every temperature."}),
        {.kind = "stuck",
         .element = "",
         .effect = ShortElement{"ntc"},
         .value_unit = "ohm",
         .value = 2500,
         .value_low = 0.1,
         .value_high = 1e7,
         .rate = 0.2,
         .text = "Stays at one resistance (the value) whatever the temperature."}};
}

}  // namespace

const PartKind& temperature_sender() {
    static const PartKind kind{
        .element = "temperature-sender",
        .letter = "B",
        .title = "Temperature sender",
        .text =
            "An NTC resistance in a housing, for coolant, outside air or an evaporator: the warmer, the less "
            "resistance.",
        .pins = {{"1", "signal"}, {"2", "ground or return"}},
        .numbers = {{.name = "ohm-25",
                     .unit = "ohm",
                     .fallback = 2500,
                     .low = 0.1,
                     .high = 1e7,
                     .tolerance_percent = 5,
                     .text = "at 25 degC"},
                    {.name = "b-k",
                     .unit = "K",
                     .fallback = 3800,
                     .low = 500,
                     .high = 8000,
                     .tolerance_percent = 1,
                     .text = "how steeply it falls: the B value of its data sheet"}},
        .words = {felt_temperature()},
        .conditions = {},
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
