#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Electrics electrics(const PartView& battery) {
    const Source cell{battery.number("open-circuit-v"), battery.number("internal-ohm")};
    return {{{"cell", battery.pin("+"), battery.pin("-"), cell}}, {}, 0};
}

}  // namespace

const PartKind& battery_kind() {
    static const PartKind kind{
        .element = "battery",
        .letter = "G",
        .title = "Battery",
        .text =
            "Lead-acid starter battery: its open-circuit voltage behind its internal resistance. Its pins' "
            "contacts are the terminal clamps.",
        .pins = {{"+", "positive post"}, {"-", "negative post"}},
        .contact_ohm = 0.0003,
        .numbers =
            {
                {"open-circuit-v", "V", 12.6, 1, 30, 1,
                 "Rested voltage with nothing connected: 12.6 V is a charged 12 V battery, 11.9 V an empty "
                 "one."},
                {"internal-ohm", "ohm", 0.005, 1e-4, 10, 20,
                 "Internal resistance: a new starter battery has 2 to 5 mohm, above 10 mohm it is worn out."},
                {"capacity-ah", "Ah", 60, 0.1, 1000, 5, "Rated capacity."},
            },
        .faults =
            {
                {"discharged", "", SetNumber{"open-circuit-v"}, "V", 11.6, 0.1, 30, 3,
                 "Left with a drain or not charged: everything is weak, relays may not pull in."},
                {"high-resistance", "", SeriesElement{"cell"}, "ohm", 0.05, 0.001, 100, 1,
                 "Sulphated or worn: good voltage at rest, which collapses under load."},
            },
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
