#include <algorithm>
#include <cmath>

#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

/// Where nobody says what a motor takes at work, half more than with no load.
constexpr double kUsualLoad = 1.5;

/// Stalled, a motor is its armature and brushes.
double stalled_ohm(const PartView& motor) {
    const double armature_ohm = motor.number("armature-ohm");
    return motor.has("stall-a") ? std::max(armature_ohm, motor.nominal_v() / motor.number("stall-a"))
                                : armature_ohm;
}

/// The straight line of RunningMotor, kept within what the winding lets through at nominal voltage: a motor
/// that would need more than that stalls.
RunningMotor running(const PartView& motor) {
    const double ohm = stalled_ohm(motor);
    const double stall_a = motor.nominal_v() / ohm;
    const double breakaway_a =
        std::min(motor.number("no-load-a") * motor.number("load-factor"), 0.9 * stall_a);
    const double asked_a =
        (motor.has("load-a") ? motor.number("load-a") : kUsualLoad * motor.number("no-load-a")) *
        motor.number("load-factor");
    return {ohm, breakaway_a, std::clamp(asked_a, breakaway_a, stall_a), motor.nominal_v()};
}

Electrics motor_electrics(const PartView& motor) {
    return {{{"armature", motor.pin("1"), motor.pin("2"), running(motor), {motor.condition("running")}},
             {"armature",
              motor.pin("1"),
              motor.pin("2"),
              Resistance{stalled_ohm(motor)},
              {motor.condition("stalled")}}},
            {},
            0};
}

Electrics lock_electrics(const PartView& lock) {
    return {{{"armature", lock.pin("1"), lock.pin("2"), Resistance{lock.number("armature-ohm")}}}, {}, 0};
}

std::vector<FaultSpec> motor_faults() {
    return {open_fault("armature", 1, "Winding or brushes open: silent, full voltage across it."),
            {"short-turns", "", ScaleNumber{"armature-ohm"}, "times", 0.5, 0.01, 0.99, 0.3,
             "Turns of the winding joined: takes more current and gets hot."},
            {"worn-brushes", "", SeriesElement{"armature"}, "ohm", 1.5, 0.01, 1e5, 1.5,
             "Brushes bounce on the commutator: weak, or only after a knock."}};
}

}  // namespace

const PartKind& motor_kind() {
    static const PartKind kind{
        .element = "motor",
        .letter = "M",
        .title = "Motor",
        .text =
            "Permanent-magnet motor, either polarity. Running it takes its load current; stalled only its "
            "winding limits the current.",
        .pins = {{"1", "one brush"}, {"2", "other brush"}},
        .numbers = {{"armature-ohm", "ohm", 0.9, 0.005, 1000, 10, "Winding and brushes, standing still."},
                    {"no-load-a", "A", 1, 0.001, 100, 20, "Turning free; below it the motor does not start."},
                    {"load-a", "A", NAN, 0.001, 200, 15,
                     "At work at nominal voltage; half more than with no load where nobody says."},
                    {"stall-a", "A", NAN, 0.01, 1000, 10,
                     "Stalled at nominal voltage, where that is less than the winding alone would give."},
                    {"load-factor", "", 1, 0.01, 100, 10, "How heavily what it moves runs."},
                    {"travel-s", "s", NAN, 0.01, 600, 20, "Time for its mechanism's whole travel."}},
        .conditions = {{"running", "turns when fed"}, {"stalled", "cannot turn: at its end stop or blocked"}},
        .operation = Operation::stated,
        .faults =
            [] {
                std::vector<FaultSpec> faults = motor_faults();
                faults.push_back(
                    stuck_fault("seized", "stalled", 0.7, "Does not turn: hums, takes its stall current."));
                faults.push_back({"stiff", "", ScaleNumber{"load-factor"}, "times", 2, 1.01, 50, 1,
                                  "Turns heavily: slow, takes more current."});
                return faults;
            }(),
        .electrics = &motor_electrics,
    };
    return kind;
}

const PartKind& mechanism_kind() {
    static const PartKind kind{
        .element = "mechanism",
        .letter = "U",
        .title = "Mechanism",
        .text =
            "What a motor moves between two end stops; switches with `operated-by` are its limit switches.",
        .plugged = false,
        .numbers = {{"travel-s", "s", 3, 0.01, 600, 20, "Time for the whole travel at nominal voltage."},
                    {"start-percent", "%", 0, 0, 100, 0, "Where it stands at first."},
                    {"load-factor", "", 1, 0.01, 100, 10, "Load of the motor, times."},
                    {"friction-factor", "", 1, 0.01, 100, 20, "Friction, times."}},
        .words = {{"motor", {}, "", "The motor that moves it.", true, "motor"}},
        .faults = {{"seized", "", TimeOnly{}, "", 0, 0, 0, 0.7, "Jammed."},
                   {"stiff", "", TimeOnly{}, "times", 2, 1.01, 50, 1, "Runs heavily."},
                   {"limit-switch", "", TimeOnly{}, "", 0, 0, 0, 1,
                    "A limit switch is out of place: it stops too early or too late."}},
    };
    return kind;
}

const PartKind& lock_actuator_kind() {
    static const PartKind kind{
        .element = "lock-actuator",
        .letter = "M",
        .title = "Lock actuator",
        .text = "Motor of a door lock, driven for a moment by one polarity or the other.",
        .pins = {{"1", "positive locks"}, {"2", "positive unlocks"}},
        .numbers = {{"armature-ohm", "ohm", 2, 0.05, 1000, 10, "Winding and brushes."},
                    {"travel-ms", "ms", 150, 1, 10000, 30, "Time for its travel."}},
        .conditions = {{"locked", "locked"}, {"unlocked", "unlocked"}},
        .operation = Operation::stated,
        .faults =
            [] {
                std::vector<FaultSpec> faults = motor_faults();
                faults.push_back({"seized", "", TimeOnly{}, "", 0, 0, 0, 1, "Does not move."});
                faults.push_back({"stiff", "", TimeOnly{}, "times", 2, 1.01, 50, 1, "Moves heavily."});
                return faults;
            }(),
        .electrics = &lock_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
