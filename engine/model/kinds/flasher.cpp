#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// The unit's own timing circuit, some 12 mA; from memory.
constexpr double kElectronicsOhm = 1000;

// A tell-tale alone does not start it, a side repeater does; from memory.
constexpr double kStartsAtW = 3;

Oscillator oscillator(const PartView& part) {
    const double late_s = part.ailment("sluggish").value_or(0) / 1000;
    return {.on = part.condition("closed"),
            .off = part.condition("open"),
            .rate_hz = 1 / (60 / part.number("rate-per-min") + 2 * late_s),
            .quantity = {},
            .watched = "49-49a",
            .starts_at_a = kStartsAtW / part.nominal_v(),
            .hurries_below_a = part.number("bulb-out-w") / part.nominal_v()};
}

Electrics electrics(const PartView& part) {
    const int in = part.pin("49");
    return {.elements = {{"49-49a",
                          in,
                          part.pin("49a"),
                          Resistance{part.number("switch-ohm")},
                          {part.condition("closed")},
                          true},
                         {"electronics", in, part.pin("31"), Resistance{kElectronicsOhm}}},
            .triggers = {},
            .oscillator = oscillator(part)};
}

std::vector<FaultSpec> faults() {
    return {force_fault("stuck-open", "open", {0.6, "No flashing: 49a stays dead while 49 has supply."}),
            force_fault("stuck-closed", "closed", {0.3, "The lamps light steadily instead of flashing."}),
            ailment_fault("sluggish", {"ms", 500, 1, 10000},
                          {0.3, "Flashes too slowly: each half of the period lasts longer by the value."})};
}

}  // namespace

const PartKind& flasher() {
    static const PartKind kind{
        .element = "flasher",
        .letter = "K",
        .title = "Flasher unit",
        .text =
            "Switches the direction indicators on and off. When a bulb is missing the load falls below "
            "bulb-out-w "
            "and it flashes at twice the rate.",
        .pins = {{"49", "supply"}, {"49a", "pulsed output to the indicator switch"}, {"31", "ground"}},
        .numbers = {{.name = "rate-per-min",
                     .unit = "1/min",
                     .fallback = 85,
                     .low = 10,
                     .high = 300,
                     .tolerance_percent = 10,
                     .text = "flashes a minute with all bulbs good; 60 to 120 is usual"},
                    {.name = "bulb-out-w",
                     .unit = "W",
                     .fallback = 30,
                     .low = 0.1,
                     .high = 500,
                     .tolerance_percent = 10,
                     .text = "load below which it shows a bulb out"},
                    switch_ohm(0.01, "of the closed contact")},
        .words = {},
        .conditions = {{"closed", "lamps on"}, {"open", "lamps off"}},
        .operation = Operation::stated,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
