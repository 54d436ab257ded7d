#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics push_button_electrics(const PartView& part) {
    const int closed = part.condition(part.word("rest") == "closed" ? "released" : "pressed");
    return {
        .elements =
            {{"1-2", part.pin("1"), part.pin("2"), Resistance{part.number("switch-ohm")}, {closed}, true}},
        .triggers = {}};
}

Electrics ignition_switch_electrics(const PartView& part) {
    const Resistance contact{part.number("switch-ohm")};
    const int accessory = part.condition("accessory");
    const int run = part.condition("run");
    const int start = part.condition("start");
    const int supply = part.pin("30");
    return {.elements = {{"30-75", supply, part.pin("75"), contact, {accessory, run}, true},
                         {"30-15", supply, part.pin("15"), contact, {run, start}, true},
                         {"30-50", supply, part.pin("50"), contact, {start}, true}},
            .triggers = {}};
}

}  // namespace

const PartKind& push_button() {
    static const PartKind kind{
        .element = "push-button",
        .letter = "S",
        .title = "Push button",
        .text =
            "One contact that a finger, a door or a brake pedal closes or opens for as long as it is "
            "pressed.",
        .pins = {{"1", "one side"}, {"2", "the other side"}},
        .numbers = {switch_ohm(0.01, "of each closed contact")},
        .words =
            {{.name = "rest",
              .choices = {"open", "closed"},
              .fallback = "open",
              .text =
                  "the contact while nobody presses; a door switch that is held open by the door is closed "
                  "at rest"}},
        .conditions = {{"released", "nobody presses"}, {"pressed", "held down"}},
        .operation = Operation::person,
        .faults = switch_faults(),
        .electrics = push_button_electrics};
    return kind;
}

const PartKind& ignition_switch() {
    static const PartKind kind{.element = "ignition-switch",
                               .letter = "S",
                               .title = "Ignition switch",
                               .text =
                                   "The key switch: 75 live in accessory and run, 15 in run and start, 50 "
                                   "only while starting, so that "
                                   "large loads on 75 are dropped for the starter.",
                               .pins = {{"30", "supply from the battery"},
                                        {"75", "accessories"},
                                        {"15", "ignition"},
                                        {"50", "starter control"}},
                               .numbers = {switch_ohm(0.005, "of each closed contact")},
                               .words = {},
                               .conditions = {{"off", "key out or turned off"},
                                              {"accessory", "radio position"},
                                              {"run", "ignition on"},
                                              {"start", "cranking"}},
                               .operation = Operation::person,
                               .faults = switch_faults(),
                               .electrics = ignition_switch_electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
