#include "engine/base/constants.h"
#include "engine/model/link_faults.h"
#include "engine/model/part_kind.h"

namespace halfsplit::model {
namespace {

using What = LinkEffect::What;

std::vector<NumberSpec> numbers() {
    return {{.name = "area-mm2",
             .unit = "mm2",
             .low = 0.05,
             .high = 240,
             .text = "cross-section of the copper; may be left out only where ohm is given"},
            {.name = "length-m",
             .unit = "m",
             .low = 0.001,
             .high = 100,
             .text = "length as it runs; may be left out only where ohm is given"},
            {.name = "ohm",
             .unit = "ohm",
             .low = 0,
             .high = 1e6,
             .text = "overrides what area and length give; 0 is an ideal link"},
            // Keeps the wire between the ideal value and the maximum of IEC 60228 class 5.
            {.name = "tolerance-percent",
             .unit = "%",
             .fallback = 4,
             .low = 0,
             .high = 100,
             .text = "how far its resistance may lie from nominal"}};
}

std::vector<WordSpec> words() {
    return {{.name = "from",
             .choices = {},
             .fallback = "",
             .text = "the point it begins at: F7.2, X20.3a, E2",
             .required = true},
            {.name = "to", .choices = {}, .fallback = "", .text = "the point it ends at", .required = true},
            {.name = "colour",
             .choices = {},
             .fallback = "",
             .text = "letters of IEC 60757, base colour and then tracer: RD, BKYE",
             .required = true}};
}

// Rates are relative and from memory: a wire fails more seldom than what is joined to its ends.
std::vector<FaultSpec> faults() {
    return {link_fault("open", What::open, 0.4, "Broken: good at one end, nothing at the other."),
            resistive_fault(
                "high-resistance", What::resistance, 1, 0.3,
                "A few strands left, or corroded under the insulation: full voltage without load, too little "
                "with it."),
            resistive_fault("short-to-ground", What::to_body, kDeadShortOhm, 0.2,
                            "Rubbed through to the body: the fuse blows as soon as the wire is live."),
            resistive_fault("short-to-supply", What::to_supply, kDeadShortOhm, 0.05,
                            "Touches a live wire: the load runs when it should not."),
            resistive_fault("short-between", What::between_wires, kDeadShortOhm, 0.05,
                            "Two wires touch (where: W31+W32): one circuit works the other."),
            {.kind = "chafed",
             .element = "",
             .effect = LinkEffect{What::chafed},
             .value_unit = "open|short@quantity:low..high",
             .rate = 0.2,
             .text = "Comes and goes: open, or short to ground, while the quantity lies in the range."}};
}

}  // namespace

const PartKind& wire_kind() {
    static const PartKind kind{
        .element = "wire",
        .letter = "W",
        .title = "Wire",
        .text = "A stranded copper wire between two points. Area and length give its resistance at 20 degC.",
        .pins = {},
        .plugged = false,
        .numbers = numbers(),
        .words = words(),
        .conditions = {},
        .faults = faults()};
    return kind;
}

}  // namespace halfsplit::model
