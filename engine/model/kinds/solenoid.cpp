#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// Tolerances may bring the two voltages together, but never past each other.
Electrics electrics(const PartView& part) {
    const double pull_in_v = part.number("pull-in-v");
    return {.elements = {{.name = "coil",
                          .from = part.pin("1"),
                          .to = part.pin("2"),
                          .law = Resistance{part.number("coil-ohm")},
                          .store = coil(part.number("coil-mh"), part.number("coil-ohm")),
                          .change = coil_warming(part)}},
            .triggers = {{.observed = Observed::element_voltage_v,
                          .subject = "coil",
                          .rise = pull_in_v,
                          .fall = std::min(part.number("drop-out-v"), pull_in_v),
                          .above = part.condition("pulled"),
                          .below = part.condition("released"),
                          .rise_delay_s = part.number("pull-ms") / 1000,
                          .fall_delay_s = part.number("pull-ms") / 1000}}};
}

// A valve or latch of some 10 ohm; from memory.
constexpr double kUsualCoilMh = 40;
constexpr double kUsualPullMs = 30;

std::vector<NumberSpec> numbers() {
    return {{.name = "coil-ohm",
             .unit = "ohm",
             .low = 0.01,
             .high = 1e5,
             .tolerance_percent = 10,
             .text = "of the coil at 20 degC",
             .required = true},
            {.name = "pull-in-v",
             .unit = "V",
             .fallback = 7,
             .low = 0.1,
             .high = 60,
             .tolerance_percent = 10,
             .text = "coil voltage at which it pulls; must be above drop-out-v"},
            {.name = "drop-out-v",
             .unit = "V",
             .fallback = 2,
             .low = 0.05,
             .high = 59,
             .tolerance_percent = 10,
             .text = "coil voltage at which it lets go"},
            {.name = "coil-mh",
             .unit = "mH",
             .fallback = kUsualCoilMh,
             .low = 0.1,
             .high = 1e5,
             .tolerance_percent = 20,
             .text = "inductance of the coil"},
            coil_warms(),
            {.name = "pull-ms",
             .unit = "ms",
             .fallback = kUsualPullMs,
             .low = 0.1,
             .high = 1e4,
             .tolerance_percent = 20,
             .text = "from enough current to the plunger's end, and back"}};
}

}  // namespace

const PartKind& solenoid() {
    static const PartKind kind{
        .element = "solenoid",
        .letter = "Y",
        .title = "Solenoid",
        .text = "A coil that pulls a plunger: a valve, a latch, a lock.",
        .pins = {{"1", "supply side"}, {"2", "ground side"}},
        .numbers = numbers(),
        .words = {},
        .conditions = {{"released", "plunger out"}, {"pulled", "plunger in"}},
        .operation = Operation::triggered,
        .faults = {open_fault("coil", {0.5, "Torn coil: voltage at the plug, no current, no pull."}),
                   short_fault("coil", {0.2, "Bridged, by the value: no pull, the fuse blows."}),
                   drift_fault("coil-ohm", 0.5,
                               {0.2,
                                "Turns shorted or overheated: the coil's resistance differs by "
                                "the factor."}),
                   force_fault("seized", "released",
                               {0.5, "The plunger is stuck: current flows, nothing moves."})},
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
