#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// One contact a pair of pins: 1a to 1b, 2a to 2b …
Electrics coupling_electrics(const PartView& coupling) {
    Electrics result;
    for (int pin = 0; pin + 1 < coupling.pin_count(); pin += 2) {
        std::string id = coupling.part().pins[static_cast<std::size_t>(pin)].id;
        id.pop_back();
        result.elements.push_back({id, pin, pin + 1, Resistance{coupling.part().contact_ohm}});
    }
    return result;
}

Electrics ground_electrics(const PartView& ground) {
    return {{{"joint", 0, kBodyTerminal, Resistance{ground.number("ohm")}}}, {}, 0};
}

}  // namespace

const PartKind& coupling_kind() {
    static const PartKind kind{
        .element = "coupling",
        .letter = "X",
        .title = "Coupling",
        .text = "In-line plug and socket. Contact 3 has the points X20.3a and X20.3b, one in each half.",
        .pin_policy = PinPolicy::counted,
        .plugged = false,
        .electrics = &coupling_electrics,
    };
    return kind;
}

const PartKind& splice_kind() {
    static const PartKind kind{
        .element = "splice",
        .letter = "J",
        .title = "Splice",
        .text = "Wires crimped or welded together; a wire ends on it by its id alone.",
        .pin_policy = PinPolicy::single,
        .plugged = false,
    };
    return kind;
}

const PartKind& ground_point_kind() {
    static const PartKind kind{
        .element = "ground-point",
        .letter = "E",
        .title = "Ground point",
        .text = "Ring terminals bolted to the body; a wire ends on it by its id alone.",
        .pin_policy = PinPolicy::single,
        .plugged = false,
        .numbers = {{"ohm", "ohm", 0.001, 0, 100, 100,
                     "The bolted joint and the body's own way to the battery; 0 for none at all."}},
        .faults = {open_fault("joint", 1,
                              "Loose or broken off: what it served looks for another way to ground."),
                   {"high-resistance", "", SeriesElement{"joint"}, "ohm", 2, 0.001, 1e6, 5,
                    "Corroded: what it served is weak and its ground side stands above 0 V."}},
        .electrics = &ground_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
