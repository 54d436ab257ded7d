#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/junction.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Electrics electrics(const PartView& relay) {
    const int rest = relay.condition("at-rest");
    const int energised = relay.condition("energised");
    const Resistance closed{relay.number("switch-ohm")};
    Electrics result;
    result.elements = {
        {"coil", relay.pin("86"), relay.pin("85"), Resistance{relay.number("coil-ohm")}},
        {"30-87", relay.pin("30"), relay.pin("87"), closed, {energised}},
    };
    if (relay.word("contacts") == "changeover")
        result.elements.push_back({"30-87a", relay.pin("30"), relay.pin("87a"), closed, {rest}});
    if (relay.word("suppression") == "resistor")
        result.elements.push_back(
            {"suppressor", relay.pin("86"), relay.pin("85"), Resistance{relay.number("suppression-ohm")}});
    if (relay.word("suppression") == "diode")
        result.elements.push_back(
            {"suppressor", relay.pin("85"), relay.pin("86"), silicon_junction(0.75, 1.0)});
    result.triggers = {{Observed::element_voltage_v, "coil", relay.number("pull-in-v"),
                        relay.number("drop-out-v"), energised, rest}};
    return result;
}

}  // namespace

const PartKind& relay_kind() {
    static const PartKind kind{
        .element = "relay",
        .letter = "K",
        .title = "Relay",
        .text =
            "Plug-in relay, pins as on ISO 7588 relays. Pulls in at its pull-in voltage across the coil and "
            "holds down to its drop-out voltage.",
        .pins = {{"30", "common of the load contact"},
                 {"85", "coil, outgoing side"},
                 {"86", "coil, incoming side"},
                 {"87", "joined to 30 when energised"},
                 {"87a", "joined to 30 at rest (changeover relays)"}},
        .numbers =
            {
                {"coil-ohm", "ohm", 85, 1, 10000, 10,
                 "Coil resistance at 20 degC: 65 to 100 ohm for power relays, 300 ohm for small ones."},
                {"pull-in-v", "V", 7.0, 0.1, 30, 10,
                 "Pulls in at this voltage across the coil at the latest."},
                {"drop-out-v", "V", 2.5, 0.1, 30, 20, "Drops out below this voltage across the coil."},
                {"switch-ohm", "ohm", 0.005, 1e-4, 10, 50, "Resistance of a closed load contact."},
                {"suppression-ohm", "ohm", 680, 10, 100000, 5,
                 "Resistor across the coil, where suppression is a resistor."},
                {"pull-in-ms", "ms", 10, 0, 1000, 30, "Time to pull in."},
                {"drop-out-ms", "ms", 6, 0, 1000, 30, "Time to drop out."},
                {"coil-mh", "mH", 300, 0, 10000, 20, "Coil inductance."},
            },
        .words = {{"contacts", {"changeover", "make"}, "changeover", "With 87a or without."},
                  {"suppression",
                   {"resistor", "diode", "none"},
                   "resistor",
                   "Across the coil; with a diode, 86 must be the positive end."}},
        .conditions = {{"at-rest", "30 joined to 87a"}, {"energised", "30 joined to 87"}},
        .operation = Operation::triggered,
        .faults =
            {
                stuck_fault("stuck-open", "at-rest", 1, "Does not pull in though its coil is fed."),
                stuck_fault("stuck-closed", "energised", 0.5,
                            "Contact welded: stays energised with no current in the coil."),
                {"contact-resistance", "", SeriesElement{"30-87"}, "ohm", 0.5, 0.001, 1e6, 1.5,
                 "Burnt contact: clicks as it should, but drops voltage under load."},
                {"open", "coil", OpenElement{"coil"}, "", 0, 0, 0, 0.7,
                 "Coil broken: no click, full voltage across 86 and 85."},
                {"short-turns", "coil", ScaleNumber{"coil-ohm"}, "times", 0.4, 0.01, 0.99, 0.2,
                 "Turns of the coil joined: takes too much current, pulls weakly, runs hot."},
                {"sluggish", "", TimeOnly{}, "ms", 300, 1, 60000, 0.2,
                 "Dirt or wear: pulls in and drops out late."},
            },
        .electrics = &electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
