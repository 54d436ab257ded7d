#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// Rested voltage of a flooded 12 V battery, full and empty; a straight line between them stays within 0.05 V
// of published tables.
constexpr double kFullV = 12.65;
constexpr double kEmptyV = 11.89;
constexpr double kOfNominalV = 12;

/// How full it is follows from its rested voltage.
Charge charge(const PartView& part) {
    const double as_12_v = kOfNominalV / part.nominal_v();
    const double share = (part.number("open-circuit-v") * as_12_v - kEmptyV) / (kFullV - kEmptyV);
    constexpr double kSecondsPerHour = 3600;
    return {.capacity_as = part.number("capacity-ah") * kSecondsPerHour,
            .share_at_rest = std::clamp(share, 0.0, 1.0),
            .volts_per_share = (kFullV - kEmptyV) / as_12_v};
}

Electrics electrics(const PartView& part) {
    const Cell cell{.emf_v = part.number("open-circuit-v"),
                    .ohm = part.number("internal-ohm"),
                    .charge_ohm = std::max(part.number("charge-ohm"), part.number("internal-ohm"))};
    return {.elements = {{.name = "cell",
                          .from = part.pin("+"),
                          .to = part.pin("-"),
                          .law = cell,
                          .change = charge(part)}},
            .triggers = {}};
}

std::vector<NumberSpec> numbers() {
    return {
        {.name = "open-circuit-v",
         .unit = "V",
         .fallback = 12.6,
         .low = 1,
         .high = 60,
         .tolerance_percent = 1,  // published curves of voltage against charge scatter by 0.1 V
         .text = "at the terminals after a rest of some hours without load; 12.6 V is a full 12 V battery, "
                 "12.2 V a half-full one"},
        {.name = "internal-ohm",
         .unit = "ohm",
         .fallback = 0.005,
         .low = 1e-4,
         .high = 10,
         .tolerance_percent = 20,
         .text =
             "what the terminal voltage falls by for each ampere drawn; above 0.01 ohm a starter battery is "
             "worn out"},
        {.name = "charge-ohm",
         .unit = "ohm",
         .fallback = 0.25,  // from memory: a full battery takes some 5 A at 14 V
         .low = 1e-4,
         .high = 100,
         .tolerance_percent = 30,
         .text = "what its voltage rises by for each ampere of charge: a full battery takes few, an empty "
                 "one many"},
        {.name = "capacity-ah",
         .unit = "Ah",
         .fallback = 60,
         .low = 0.1,
         .high = 1000,
         .text = "charge it gives in 20 hours; says how fast a drain flattens it"}};
}

std::vector<FaultSpec> faults() {
    return {
        {.kind = "discharged",
         .element = "",
         .effect = SetNumber{"open-circuit-v"},
         .value_unit = "V",
         .value = 11.6,
         .value_low = 1,
         .value_high = 60,
         .rate = 1.5,
         .text = "Flat: the rested voltage is low (the value), lamps are dim, relays chatter while cranking. "
                 "Look "
                 "for the drain or the missing charge before replacing it."},
        series_fault("high-resistance", "cell", 0.05,
                     {1, "Worn out or sulphated: the rested voltage is good, but falls far under load."})};
}

}  // namespace

const PartKind& battery() {
    static const PartKind kind{
        .element = "battery",
        .letter = "G",
        .title = "Battery",
        .text =
            "A starter battery: a voltage behind its internal resistance. Several in series or parallel are "
            "several parts.",
        .pins = {{"+", "positive post"}, {"-", "negative post; wire it to a ground point"}},
        .contact_ohm = 0.0005,  // bolted clamps, not a plug; from memory
        .numbers = numbers(),
        .words = {},
        .conditions = {},
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
