#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// Junction and bulk together drop forward-v at at-a, as a data sheet means it.
Electrics electrics(const PartView& part) {
    const double forward_v = part.number("forward-v");
    const double at_a = part.number("at-a");
    const double bulk_ohm = part.number("bulk-ohm");
    const double junction_v = std::max(forward_v - at_a * bulk_ohm, forward_v / 2);
    const int inside = part.pin_count();
    return {.elements = {{"junction", part.pin("A"), inside,
                          junction_through(junction_v, at_a, part.number("slope-v"))},
                         {"bulk", inside, part.pin("K"), Resistance{bulk_ohm}}},
            .triggers = {},
            .inner_nodes = 1};
}

std::vector<NumberSpec> numbers() {
    return {{.name = "forward-v",
             .unit = "V",
             .fallback = 0.75,
             .low = 0.1,
             .high = 5,
             .tolerance_percent = 5,
             .text = "drop at the current at-a; 0.75 V for silicon"},
            {.name = "at-a",
             .unit = "A",
             .fallback = 1,
             .low = 1e-4,
             .high = 100,
             .text = "current at which forward-v holds"},
            {.name = "slope-v",
             .unit = "V",
             .fallback = 0.05,
             .low = 0.025,
             .high = 0.5,
             .text = "how steeply the current rises: emission coefficient (1 to 2) times 25 mV"},
            {.name = "bulk-ohm",
             .unit = "ohm",
             .fallback = 0.02,
             .low = 1e-4,
             .high = 100,
             .text = "resistance of the crystal and leads"}};
}

}  // namespace

const PartKind& diode() {
    static const PartKind kind{
        .element = "diode",
        .letter = "V",
        .title = "Diode",
        .text = "Lets current through from A to K only: decouples two feeds, or takes a coil's voltage kick.",
        .pins = {{"A", "anode"}, {"K", "cathode, the end with the band"}},
        .numbers = numbers(),
        .words = {},
        .conditions = {},
        .faults = {open_fault("junction", {0.4, "Blown apart: passes nothing either way."}),
                   short_fault("junction",
                               {0.4,
                                "Punched through, by the value: passes both ways; one circuit feeds "
                                "back into the other."})},
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
