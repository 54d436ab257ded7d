#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
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
    const int minus = part.pin("-");
    const Resistance supply{ohm_of_current(part.nominal_v(), part.number("supply-ma"))};
    return {
        .elements =
            {{"supply", part.pin("+"), minus, supply},
             {"output", part.pin("o"), minus, Resistance{part.number("low-ohm")}, {part.condition("on")}}},
        .triggers = {trigger(part)}};
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
            {.name = "supply-ma",
             .unit = "mA",
             .fallback = 8,
             .low = 0.01,
             .high = 1000,
             .tolerance_percent = 20,
             .text = "what its electronics draw at nominal voltage"},
            {.name = "low-ohm",
             .unit = "ohm",
             .fallback = 30,
             .low = 0.1,
             .high = 1e5,
             .tolerance_percent = 20,
             .text = "from the output to - while it is on"}};
}

std::vector<FaultSpec> faults() {
    return {
        force_fault("no-signal", "off", {0.6, "The output never pulls low, whatever passes it."}),
        force_fault("stuck", "on", {0.3, "The output stays low."}),
        open_fault("supply", {0.3,
                              "Its electronics draw no current: a broken joint inside. Supply and ground are "
                              "good at the plug."}),
        short_fault("output", {0.2, "The output is bridged to -, by the value."})};
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
                               .pins = {{"+", "supply"}, {"-", "ground"}, {"o", "signal, open collector"}},
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
