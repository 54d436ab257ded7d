#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// Nothing electrical: it moves switches and loads its motor.
Electrics electrics(const PartView& part) {
    return {.elements = {},
            .triggers = {},
            .travel = Travel{.motor = std::string(part.word("motor")),
                             .travel_s = part.number("travel-s"),
                             .start = part.number("start-percent") / 100,
                             .load_factor = part.number("load-factor") * part.ailment("stiff").value_or(1),
                             .round = part.word("motion") == "round",
                             .jammed = part.ailment("seized").has_value(),
                             .obstacle = std::string(part.word("obstacle")),
                             .latch = std::string(part.word("latch")),
                             .latched_at_start = part.word("latched-at") == "start"}};
}

std::vector<NumberSpec> numbers() {
    return {{.name = "travel-s",
             .unit = "s",
             .low = 0.01,
             .high = 3600,
             .text = "time from one end to the other, or for one turn, at nominal voltage",
             .required = true},
            {.name = "start-percent",
             .unit = "%",
             .fallback = 0,
             .low = 0,
             .high = 100,
             .text = "where it stands at the outset"},
            {.name = "load-factor",
             .unit = "",
             .fallback = 1,
             .low = 0.1,
             .high = 20,
             .text = "how heavy it is to move, against the motor's ordinary load"}};
}

}  // namespace

const PartKind& mechanism() {
    static const PartKind kind{
        .element = "mechanism",
        .letter = "M",
        .title = "Mechanism",
        .text =
            "What a motor moves between two end stops: a step, a window, a wiper arm. Limit switches name "
            "it, and it "
            "moves them at the ends of its travel.",
        .pins = {},
        .plugged = false,
        .numbers = numbers(),
        .words =
            {{.name = "motor",
              .choices = {},
              .fallback = "",
              .text = "the motor that drives it",
              .required = true,
              .refers_to = "motor"},
             {.name = "motion",
              .choices = {"to-and-fro", "round"},
              .fallback = "to-and-fro",
              .text = "between two end stops, or round and round like a wiper crank"},
             {.name = "obstacle",
              .choices = {},
              .fallback = "",
              .text = "a quantity: percent of the travel beyond which something is in the way; 100 = nothing",
              .refers_to = "quantity"},
             {.name = "latch",
              .choices = {},
              .fallback = "",
              .text = "a solenoid: the mechanism leaves the end it is latched at only while that pulls",
              .refers_to = "solenoid"},
             {.name = "latched-at",
              .choices = {"end", "start"},
              .fallback = "end",
              .text = "the end of the travel at which the latch holds it"}},
        .conditions = {},
        .faults = {ailment_fault("seized",
                                 {0.5,
                                  "Jammed where it stands: the motor draws its stall current and nothing "
                                  "moves."}),
                   ailment_fault(
                       "stiff", {"factor", 2, 0.1, 20},
                       {1, "Dry, iced or bent: it travels slowly and the motor draws more, by the factor."})},
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
