#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/junction.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Electrics electrics(const PartView& diode) {
    const int inner = diode.pin_count();
    return {{{"junction", diode.pin("A"), inner,
              junction_through(diode.number("forward-v"), diode.number("at-a"), diode.number("slope-v"))},
             {"bulk", inner, diode.pin("K"), Resistance{diode.number("bulk-ohm")}}},
            {},
            1};
}

}  // namespace

const PartKind& diode_kind() {
    static const PartKind kind{
        .element = "diode",
        .letter = "V",
        .title = "Diode",
        .text = "Conducts from A to K.",
        .pins = {{"A", "anode"}, {"K", "cathode"}},
        .numbers = {{"forward-v", "V", 0.75, 0.1, 5, 5,
                     "Forward drop of the junction at the current `at-a`."},
                    {"at-a", "A", 1, 1e-4, 100, 0, "The current its forward drop is given at."},
                    {"slope-v", "V", kSiliconSlopeV, 0.02, 0.2, 0,
                     "Emission coefficient times thermal voltage."},
                    {"bulk-ohm", "ohm", 0.02, 1e-4, 100, 30, "Resistance in series with the junction."}},
        .faults = {open_fault("junction", 1, "Open: blocks both ways."),
                   short_fault("junction", 0.7,
                               "Broken down: conducts both ways, feeds other circuits backwards.")},
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
