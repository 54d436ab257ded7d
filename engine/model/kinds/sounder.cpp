#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics electrics(const PartView& part) {
    const Resistance coil{ohm_of_rating(part.number("rated-v"), part.number("rated-w"))};
    return {.elements = {{"coil", part.pin("1"), part.pin("2"), coil}}, .triggers = {}};
}

std::vector<NumberSpec> numbers(double rated_w) {
    return {{.name = "rated-w",
             .unit = "W",
             .fallback = rated_w,
             .low = 0.01,
             .high = 500,
             .tolerance_percent = 15,
             .text = "mean power while it sounds"},
            {.name = "rated-v",
             .unit = "V",
             .fallback = 12,
             .low = 1,
             .high = 60,
             .text = "voltage at which it takes its rated power"}};
}

std::vector<PinSpec> pins() {
    return {{"1", "supply side"}, {"2", "ground side"}};
}

std::vector<FaultSpec> faults(double rate) {
    return {
        open_fault("coil", {rate,
                            "Coil torn or its breaker points burnt: voltage at the plug, no sound, no "
                            "current."}),
        short_fault("coil", {0.1, "Bridged, by the value: no sound, the fuse blows."}),
        drift_fault("rated-w", 0.5, {0.4, "Weak and off tone: takes less or more power, by the factor."})};
}

}  // namespace

const PartKind& horn() {
    static const PartKind kind{
        .element = "horn",
        .letter = "P",
        .title = "Horn",
        .text = "Counts by its mean current while it sounds; its own breaker points are not followed.",
        .pins = pins(),
        .numbers = numbers(48),
        .words = {},
        .conditions = {},
        .faults = faults(1),
        .electrics = electrics};
    return kind;
}

const PartKind& buzzer() {
    static const PartKind kind{.element = "buzzer",
                               .letter = "P",
                               .title = "Buzzer",
                               .text = "A warning buzzer or chime, counted by its mean current.",
                               .pins = pins(),
                               .numbers = numbers(0.5),
                               .words = {},
                               .conditions = {},
                               .faults = faults(0.4),
                               .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
