#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics electrics(const PartView& part) {
    const Resistance grid{ohm_of_rating(part.number("rated-v"), part.number("rated-w"))};
    return {.elements = {{"grid", part.pin("1"), part.pin("2"), grid}}, .triggers = {}};
}

}  // namespace

const PartKind& heater() {
    static const PartKind kind{
        .element = "heater",
        .letter = "E",
        .title = "Heater",
        .text =
            "A heating grid or element: rear window, seat, mirror. Its resistance is that of its rated power "
            "and "
            "hardly changes with heat.",
        .pins = {{"1", "supply side"}, {"2", "ground side"}},
        .numbers =
            {{.name = "rated-w",
              .unit = "W",
              .low = 0.1,
              .high = 5000,
              .tolerance_percent = 10,
              .text = "power at the rated voltage",
              .required = true},
             {.name = "rated-v",
              .unit = "V",
              .fallback = 12,
              .low = 1,
              .high = 60,
              .text = "voltage at which it gives its rated power"},
             {.name = "lines",
              .unit = "",
              .fallback = 12,
              .low = 1,
              .high = 200,
              .text = "how many grid wires lie side by side; one of them torn takes its share of the power"}},
        .words = {},
        .conditions = {},
        .faults = {open_fault("grid",
                              {0.8, "A bus bar is off or the element torn: full voltage, no current, cold."}),
                   short_fault("grid",
                               {0.1, "Bridged, by the value: the fuse blows when it is switched on."}),
                   drift_fault("rated-w", 0.7,
                               {1,
                                "Some grid wires are torn: the power is down by the factor, stripes "
                                "stay misted."})},
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
