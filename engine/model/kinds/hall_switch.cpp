#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/open_collector.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

/// On above on-at where that is the higher of the two, else on below it.
Trigger trigger(const PartView& part) {
    const double on_at = part.number("on-at");
    const double off_at = part.number("off-at");
    const int off = part.condition("off");
    const int on = part.condition("on");
    const bool on_rising = on_at >= off_at;
    return {.observed = Observed::quantity,
            .subject = std::string(part.word("quantity")),
            .rise = on_rising ? on_at : off_at,
            .fall = on_rising ? off_at : on_at,
            .above = on_rising ? on : off,
            .below = on_rising ? off : on};
}

Electrics electrics(const PartView& part) {
    return {.elements = open_collector_elements(part, "on"), .triggers = {trigger(part)}};
}

std::vector<NumberSpec> numbers() {
    return {{.name = "on-at",
             .unit = "",
             .low = -1e9,
             .high = 1e9,
             .text = "value of its quantity at which it switches on",
             .required = true},
            {.name = "off-at",
             .unit = "",
             .low = -1e9,
             .high = 1e9,
             .text = "value at which it switches off; must differ from on-at",
             .required = true},
            sender_supply(),
            sender_output(30, "from the output to - while it is on")};
}

std::vector<FaultSpec> faults() {
    return {force_fault("no-signal", "off", {0.6, "The output never pulls low, whatever passes it."}),
            force_fault("stuck", "on", {0.3, "The output stays low."}), sender_supply_open(),
            sender_output_bridged()};
}

}  // namespace

const PartKind& hall_switch() {
    static const PartKind kind{.element = "hall-switch",
                               .letter = "B",
                               .title = "Hall switch",
                               .text =
                                   "A contactless position switch: its output pulls the signal wire low "
                                   "while a magnet is near. The voltage "
                                   "otherwise comes from the receiver.",
                               .pins = open_collector_pins(),
                               .numbers = numbers(),
                               .words = {{.name = "quantity",
                                          .choices = {},
                                          .fallback = "",
                                          .text = "the position it follows",
                                          .required = true,
                                          .refers_to = "quantity"}},
                               .conditions = {{"off", "output lets go"}, {"on", "output pulls low"}},
                               .operation = Operation::triggered,
                               .faults = faults(),
                               .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
