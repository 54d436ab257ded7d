#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// Contact n joins pin "na" to pin "nb"; the reader lays the pins out as 1a 1b 2a 2b …
Electrics coupling_electrics(const PartView& part) {
    std::vector<Element> contacts;
    for (int pin = 0; pin + 1 < part.pin_count(); pin += 2)
        contacts.push_back({std::to_string(pin / 2 + 1), pin, pin + 1, Resistance{part.part().contact_ohm}});
    return {.elements = std::move(contacts), .triggers = {}};
}

Electrics splice_electrics(const PartView&) {
    return {.elements = {}, .triggers = {}};
}

Electrics ground_electrics(const PartView& part) {
    return {.elements = {{"joint", 0, kBodyTerminal, Resistance{part.number("ohm")}}}, .triggers = {}};
}

}  // namespace

const PartKind& coupling() {
    static const PartKind kind{
        .element = "coupling",
        .letter = "X",
        .title = "Coupling",
        .text =
            "A plug and socket between two harnesses. Each contact has an a side and a b side: X20.3a and "
            "X20.3b.",
        .pin_policy = PinPolicy::counted,
        .pins = {},
        .plugged = false,  // it is the plug: no second contact lies between its pins and the wires
        .numbers = {},
        .words = {},
        .conditions = {},
        .faults = {},
        .electrics = coupling_electrics};
    return kind;
}

const PartKind& splice() {
    static const PartKind kind{.element = "splice",
                               .letter = "X",
                               .title = "Splice",
                               .text =
                                   "A point inside the harness where wires are crimped or welded together. A "
                                   "single wire that fails there "
                                   "is a fault of that wire.",
                               .pin_policy = PinPolicy::single,
                               .pins = {},
                               .plugged = false,
                               .numbers = {},
                               .words = {},
                               .conditions = {},
                               .faults = {},
                               .electrics = splice_electrics};
    return kind;
}

const PartKind& ground_point() {
    static const PartKind kind{
        .element = "ground-point",
        .letter = "E",
        .title = "Ground point",
        .text =
            "A stud or bolt that joins ring terminals to the vehicle body. All voltages are against the "
            "body.",
        .pin_policy = PinPolicy::single,
        .pins = {},
        .plugged = false,
        .numbers = {{.name = "ohm",
                     .unit = "ohm",
                     .fallback = 0.001,
                     .low = 1e-5,
                     .high = 100,
                     .tolerance_percent = 50,
                     .text = "of the bolted joint and the body behind it"}},
        .words = {},
        .conditions = {},
        .faults = {open_fault(
                       "joint",
                       {0.6, "Loose or off: all loads on it dead, dim or fed back through each other."}),
                   series_fault(
                       "high-resistance", "joint", 2,
                       {2,
                        "Rust or paint under the ring: the more loads are on, the more volts at the stud. "
                        "Measure from stud to battery negative under load."})},
        .electrics = ground_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
