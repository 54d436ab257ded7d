#include <cmath>

#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Electrics by_rating(const PartView& part, const char* name) {
    const double rated_v = part.number("rated-v");
    return {{{name, part.pin("1"), part.pin("2"), Resistance{rated_v * rated_v / part.number("rated-w")}}},
            {},
            0};
}

Electrics heater_electrics(const PartView& part) {
    return by_rating(part, "grid");
}
Electrics coil_electrics(const PartView& part) {
    return by_rating(part, "coil");
}

Electrics solenoid_electrics(const PartView& part) {
    return {{{"coil", part.pin("1"), part.pin("2"), Resistance{part.number("coil-ohm")}}},
            {{Observed::element_voltage_v, "coil", part.number("pull-in-v"), part.number("drop-out-v"),
              part.condition("pulled"), part.condition("released")}},
            0};
}

Electrics capacitor_electrics(const PartView& part) {
    return {{{"leak", part.pin("1"), part.pin("2"), Resistance{part.number("leak-ohm")}}}, {}, 0};
}

std::vector<PinSpec> two_pins() {
    return {{"1", "supply side"}, {"2", "ground side"}};
}
NumberSpec rated_v() {
    return {"rated-v", "V", 12, 1, 48, 0, "The voltage its watts are given at."};
}

std::vector<FaultSpec> load_faults(std::string_view element, std::string_view number, double rate) {
    return {open_fault(element, rate, "Broken inside: nothing happens, full voltage stands across it."),
            short_fault(element, 0.2, "Short-circuited inside: its fuse blows."),
            drift_fault(number, 0.5, 0.3, "Works weakly: takes less than it should.")};
}

}  // namespace

const PartKind& heater_kind() {
    static const PartKind kind{
        .element = "heater",
        .letter = "E",
        .title = "Heater",
        .text = "A heating element, such as a rear-window grid.",
        .pins = two_pins(),
        .numbers = {{"rated-w", "W", NAN, 0.1, 5000, 7, "Power at its rated voltage.", true},
                    rated_v(),
                    {"lines", "", 12, 1, 200, 0, "Grid wires side by side; information only."}},
        .faults = load_faults("grid", "rated-w", 1),
        .electrics = &heater_electrics,
    };
    return kind;
}

const PartKind& horn_kind() {
    static const PartKind kind{
        .element = "horn",
        .letter = "P",
        .title = "Horn",
        .text = "Its mean current while it sounds; the breaking of its own contact is not followed.",
        .pins = two_pins(),
        .numbers = {{"rated-w", "W", 48, 0.5, 500, 15, "Power at its rated voltage."}, rated_v()},
        .faults = load_faults("coil", "rated-w", 2),
        .electrics = &coil_electrics,
    };
    return kind;
}

const PartKind& buzzer_kind() {
    static const PartKind kind{
        .element = "buzzer",
        .letter = "P",
        .title = "Buzzer",
        .text = "A small sounder.",
        .pins = two_pins(),
        .numbers = {{"rated-w", "W", 0.5, 0.01, 50, 20, "Power at its rated voltage."}, rated_v()},
        .faults = load_faults("coil", "rated-w", 0.5),
        .electrics = &coil_electrics,
    };
    return kind;
}

const PartKind& solenoid_kind() {
    static const PartKind kind{
        .element = "solenoid",
        .letter = "Y",
        .title = "Solenoid",
        .text =
            "A coil that pulls a plunger or valve at its pull-in voltage and lets go at its drop-out "
            "voltage.",
        .pins = two_pins(),
        .numbers = {{"coil-ohm", "ohm", NAN, 0.05, 10000, 10, "Coil resistance at 20 degC.", true},
                    {"pull-in-v", "V", 7, 0.1, 30, 15, "Pulls at this voltage."},
                    {"drop-out-v", "V", 2, 0.05, 30, 20, "Lets go at this voltage."},
                    {"coil-mh", "mH", 50, 0, 10000, 20, "Coil inductance."}},
        .conditions = {{"released", "at rest"}, {"pulled", "plunger in"}},
        .operation = Operation::triggered,
        .faults = {open_fault("coil", 1, "Coil broken."),
                   short_fault("coil", 0.3, "Coil short-circuited: its fuse blows."),
                   drift_fault("coil-ohm", 0.5, 0.2, "Turns of the coil joined: takes too much current."),
                   stuck_fault("seized", "released", 1,
                               "The plunger sticks: the coil is fed, nothing moves.")},
        .electrics = &solenoid_electrics,
    };
    return kind;
}

const PartKind& capacitor_kind() {
    static const PartKind kind{
        .element = "capacitor",
        .letter = "C",
        .title = "Capacitor",
        .text = "At rest only its leakage conducts.",
        .pins = two_pins(),
        .numbers = {{"microfarad", "uF", NAN, 1e-6, 1e7, 20, "Capacitance.", true},
                    {"leak-ohm", "ohm", 1e7, 100, 1e12, 50, "Leakage resistance."}},
        .faults = {open_fault("leak", 0.5, "No longer connected inside."),
                   short_fault("leak", 0.5, "Short-circuited."),
                   drift_fault("microfarad", 0.3, 0.5, "Dried out: capacitance lost.")},
        .electrics = &capacitor_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
