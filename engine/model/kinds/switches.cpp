#include <map>

#include "engine/model/kinds/common_faults.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model {

namespace {

Element contact(const PartView& part, std::string_view from, std::string_view to,
                std::vector<int> closed_in) {
    return {std::string(from) + "-" + std::string(to), part.pin(from),       part.pin(to),
            Resistance{part.number("switch-ohm")},     std::move(closed_in), true};
}

/// One element for each pair of pins that any position joins.
Electrics switch_electrics(const PartView& part) {
    std::map<std::pair<int, int>, std::vector<int>> closed_in;
    for (std::size_t i = 0; i < part.part().positions.size(); ++i)
        for (const Contact& each : part.part().positions[i].contacts)
            closed_in[{each.from, each.to}].push_back(static_cast<int>(i));
    Electrics result;
    const auto pin_id = [&](int pin) { return part.part().pins[static_cast<std::size_t>(pin)].id; };
    for (const auto& [pins, positions] : closed_in)
        result.elements.push_back(contact(part, pin_id(pins.first), pin_id(pins.second), positions));
    return result;
}

Electrics button_electrics(const PartView& part) {
    const char* closed = part.word("rest") == "closed" ? "released" : "pressed";
    return {{contact(part, "1", "2", {part.condition(closed)})}, {}, 0};
}

Electrics ignition_electrics(const PartView& part) {
    const int accessory = part.condition("accessory");
    const int run = part.condition("run");
    const int start = part.condition("start");
    return {{contact(part, "30", "75", {accessory, run}), contact(part, "30", "15", {run, start}),
             contact(part, "30", "50", {start})},
            {},
            0};
}

Electrics thermo_electrics(const PartView& part) {
    const int open = part.condition("open");
    const int closed = part.condition("closed");
    const double closes_at = part.number("closes-at-degc");
    const double opens_at = part.number("opens-at-degc");
    const bool closes_when_warm = closes_at >= opens_at;
    Trigger trigger{
        Observed::quantity, std::string(part.word("quantity")), closes_at, opens_at, closed, open};
    if (!closes_when_warm)
        trigger = {Observed::quantity, std::string(part.word("quantity")), opens_at, closes_at, open, closed};
    return {{contact(part, "1", "2", {closed})}, {trigger}, 0};
}

NumberSpec switch_ohm() {
    return {"switch-ohm", "ohm", 0.01, 1e-4, 1000, 50, "Resistance of a closed contact."};
}

}  // namespace

const PartKind& switch_kind() {
    static const PartKind kind{
        .element = "switch",
        .letter = "S",
        .title = "Switch",
        .text =
            "A switch of any number of positions, each joining the pins its contacts name; the first is "
            "where it rests.",
        .pin_policy = PinPolicy::authored,
        .pins = {{"1", "in"}, {"2", "out"}},
        .numbers = {switch_ohm()},
        .words =
            {{"operated-by", {}, "", "The mechanism that moves it (a limit switch).", false, "mechanism"},
             {"operated-at", {"", "start", "end"}, "", "At which end of the mechanism's travel."}},
        .authored_positions = true,
        .operation = Operation::person,
        .faults = switching_faults(),
        .electrics = &switch_electrics,
    };
    return kind;
}

const PartKind& push_button_kind() {
    static const PartKind kind{
        .element = "push-button",
        .letter = "S",
        .title = "Push button",
        .text = "Springs back when let go.",
        .pins = {{"1", "in"}, {"2", "out"}},
        .numbers = {switch_ohm()},
        .words = {{"rest", {"open", "closed"}, "open", "What its contact is while nobody presses."}},
        .conditions = {{"released", "nobody presses"}, {"pressed", "held down"}},
        .operation = Operation::person,
        .faults = switching_faults(),
        .electrics = &button_electrics,
    };
    return kind;
}

const PartKind& ignition_switch_kind() {
    static const PartKind kind{
        .element = "ignition-switch",
        .letter = "S",
        .title = "Ignition switch",
        .text = "Key switch: 75 in accessory and run, 15 in run and start, 50 in start.",
        .pins = {{"30", "from the battery"}, {"75", "accessories"}, {"15", "ignition"}, {"50", "starter"}},
        .numbers = {{"switch-ohm", "ohm", 0.004, 1e-4, 1000, 50, "Resistance of a closed contact."}},
        .conditions = {{"off", "key out"},
                       {"accessory", "accessories"},
                       {"run", "ignition on"},
                       {"start", "cranking"}},
        .operation = Operation::person,
        .faults = switching_faults(),
        .electrics = &ignition_electrics,
    };
    return kind;
}

const PartKind& thermo_switch_kind() {
    static const PartKind kind{
        .element = "thermo-switch",
        .letter = "S",
        .title = "Thermo-switch",
        .text =
            "Closes at one temperature and opens at another; the gap keeps it from chattering. Closing below "
            "opening makes one that closes as it cools.",
        .pins = {{"1", "in"}, {"2", "out"}},
        .numbers = {{"closes-at-degc", "degC", 92, -100, 1000, 2, "Closes at this temperature."},
                    {"opens-at-degc", "degC", 87, -100, 1000, 2, "Opens at this temperature."},
                    switch_ohm()},
        .words = {{"quantity", {}, "", "The quantity it feels.", true, "quantity"}},
        .conditions = {{"open", "contact open"}, {"closed", "contact closed"}},
        .operation = Operation::triggered,
        .faults = switching_faults(),
        .electrics = &thermo_electrics,
    };
    return kind;
}

}  // namespace halfsplit::model
