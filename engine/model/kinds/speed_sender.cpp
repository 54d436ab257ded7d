#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

Electrics electrics(const PartView& part) {
    const int minus = part.pin("-");
    const Resistance supply{ohm_of_current(part.nominal_v(), part.number("supply-ma"))};
    return {
        .elements =
            {{"supply", part.pin("+"), minus, supply},
             {"output", part.pin("o"), minus, Resistance{part.number("low-ohm")}, {part.condition("low")}}},
        .triggers = {}};
}

std::vector<NumberSpec> numbers() {
    return {{.name = "supply-ma",
             .unit = "mA",
             .fallback = 8,
             .low = 0.01,
             .high = 1000,
             .tolerance_percent = 20,
             .text = "what its electronics draw at nominal voltage"},
            {.name = "pulses-per-km",
             .unit = "1/km",
             .fallback = 4000,
             .low = 1,
             .high = 1e6,
             .text = "pulses for each kilometre of road"},
            {.name = "low-ohm",
             .unit = "ohm",
             .fallback = 40,
             .low = 0.1,
             .high = 1e5,
             .tolerance_percent = 20,
             .text = "from the output to - while it pulls low"}};
}

std::vector<FaultSpec> faults() {
    return {
        force_fault("no-signal", "high",
                    {0.6,
                     "The output never pulls low: it stays at what its receiver's pull-up "
                     "gives."}),
        force_fault("stuck", "low", {0.3, "The output stays low, whatever the speed."}),
        time_fault("wrong-rate", {"factor", 0.5, 0.01, 100},
                   {0.3, "Pulses are missing or doubled: the speed shown is wrong by the factor."}),
        open_fault("supply", {0.3,
                              "Its electronics draw no current: a broken joint inside. Supply and ground are "
                              "good at the plug."}),
        short_fault("output", {0.2, "The output is bridged to -, by the value."})};
}

}  // namespace

const PartKind& speed_sender() {
    static const PartKind kind{.element = "speed-sender",
                               .letter = "B",
                               .title = "Speed sender",
                               .text =
                                   "A pulse sender on the gearbox. Its output pulls the signal wire low once "
                                   "a pulse and lets go again; the "
                                   "voltage in between comes from the receiver.",
                               .pins = {{"+", "supply"}, {"-", "ground"}, {"o", "signal, open collector"}},
                               .numbers = numbers(),
                               .words = {{.name = "quantity",
                                          .choices = {},
                                          .fallback = "",
                                          .text = "the speed it follows, in km/h",
                                          .required = true,
                                          .refers_to = "quantity"}},
                               .conditions = {{"high", "output lets go"}, {"low", "output pulls low"}},
                               .operation = Operation::stated,
                               .faults = faults(),
                               .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
