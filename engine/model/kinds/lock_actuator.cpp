#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics electrics(const PartView& part) {
    return {.elements = {{"armature", part.pin("1"), part.pin("2"), Resistance{part.number("armature-ohm")}}},
            .triggers = {}};
}

std::vector<FaultSpec> faults() {
    return {open_fault("armature",
                       {0.7, "Torn winding or worn-out brushes: pulse at the plug, no current, no move."}),
            scale_fault("short-turns", "armature-ohm", 0.5,
                        {0.2, "Turns are shorted: weak, with too much current."}),
            series_fault("worn-brushes", "armature", 3,
                         {0.8, "Brushes at their end: works now and then, with too little current."}),
            time_fault("seized", {0.6, "Stuck: it draws its pulse but does not move the lock."}),
            time_fault("stiff", {"factor", 2, 0.1, 20},
                       {0.6,
                        "Dry or bent linkage: slow, by the factor, or it stops "
                        "halfway."})};
}

}  // namespace

const PartKind& lock_actuator() {
    static const PartKind kind{
        .element = "lock-actuator",
        .letter = "M",
        .title = "Lock actuator",
        .text =
            "The small motor of a central lock. A pulse one way locks, the other way unlocks; at the end of "
            "its "
            "short travel it stands still and draws only what its winding lets through.",
        .pins = {{"1", "positive to lock"}, {"2", "positive to unlock"}},
        .numbers = {{.name = "armature-ohm",
                     .unit = "ohm",
                     .fallback = 2,
                     .low = 0.01,
                     .high = 1000,
                     .tolerance_percent = 10,
                     .text = "of the winding; 2 ohm draws 6 A at the end of the travel"},
                    {.name = "travel-ms",
                     .unit = "ms",
                     .fallback = 150,
                     .low = 1,
                     .high = 10000,
                     .tolerance_percent = 20,
                     .text = "time it takes from one end to the other"}},
        .words = {},
        .conditions = {{"locked", "at the locked end"}, {"unlocked", "at the unlocked end"}},
        .operation = Operation::stated,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
