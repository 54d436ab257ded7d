#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

// What it draws on its way, as shares of the current at the end of its travel: to start at all, and moving (1
// to 3 A of 6 A); from memory.
constexpr double kStartShare = 0.15;
constexpr double kMovingShare = 0.3;
// Within a small part of its travel it is at full speed; from memory.
constexpr double kSpinUpShare = 0.1;
// A small motor for pulses of half a second: held at its end it would soon burn; from memory.
constexpr double kBlockedWarmsKPerS = 8;
constexpr double kCoolsS = 60;

Electrics electrics(const PartView& part) {
    const int moving = part.condition("moving");
    const int locked = part.condition("locked");
    const int unlocked = part.condition("unlocked");
    const double ohm = part.number("armature-ohm");
    const double blocked_a = part.nominal_v() / ohm;
    const double stiff = part.ailment("stiff").value_or(1);
    const double travel_s = part.number("travel-ms") / 1000;
    const RunningMotor law = heavier({.ohm = ohm,
                                      .breakaway_a = kStartShare * blocked_a,
                                      .load_a = kMovingShare * blocked_a,
                                      .load_v = part.nominal_v()},
                                     stiff);
    const double blocked_w = part.nominal_v() * part.nominal_v() / part.authored("armature-ohm");
    return {
        .elements = armature({.from = part.pin("1"),
                              .to = part.pin("2"),
                              .law = law,
                              .spin_up_s = kSpinUpShare * travel_s,
                              .warming = copper_winding(kBlockedWarmsKPerS * kCoolsS, blocked_w, kCoolsS)},
                             {moving}, {locked, unlocked}),
        .triggers = {},
        .travel = Travel{.travel_s = travel_s, .jammed = part.ailment("seized").has_value()},
        .blocking = Blocking{.turning = moving, .at_start = unlocked, .at_end = locked}};
}

std::vector<FaultSpec> faults() {
    return {open_fault("armature",
                       {0.7, "Torn winding or worn-out brushes: pulse at the plug, no current, no move."}),
            scale_fault("short-turns", "armature-ohm", 0.5,
                        {0.2, "Turns are shorted: weak, with too much current."}),
            series_fault("worn-brushes", "armature", 3,
                         {0.8, "Brushes at their end: works now and then, with too little current."}),
            ailment_fault("seized", {0.6, "Stuck: it draws its pulse but does not move the lock."}),
            ailment_fault("stiff", {"factor", 2, 0.1, 20},
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
        .conditions = {{"unlocked", "at the unlocked end"},
                       {"locked", "at the locked end"},
                       {"moving", "between its ends"}},
        .operation = Operation::stated,
        .faults = faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
