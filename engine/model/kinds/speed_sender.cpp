#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/open_collector.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

constexpr double kSecondsPerHour = 3600;  // the speed is in km/h

Electrics electrics(const PartView& part) {
    return {.elements = open_collector_elements(part, "low"),
            .triggers = {},
            .oscillator = Oscillator{.on = part.condition("low"),
                                     .off = part.condition("high"),
                                     .rate_hz = part.ailment("wrong-rate").value_or(1) *
                                                part.number("pulses-per-km") / kSecondsPerHour,
                                     .quantity = std::string(part.word("quantity"))}};
}

std::vector<NumberSpec> numbers() {
    return {sender_supply(),
            {.name = "pulses-per-km",
             .unit = "1/km",
             .fallback = 4000,
             .low = 1,
             .high = 1e6,
             .text = "pulses for each kilometre of road"},
            sender_output(40, "from the output to - while it pulls low")};
}

std::vector<FaultSpec> faults() {
    return {force_fault("no-signal", "high",
                        {0.6,
                         "The output never pulls low: it stays at what its receiver's pull-up "
                         "gives."}),
            force_fault("stuck", "low", {0.3, "The output stays low, whatever the speed."}),
            ailment_fault("wrong-rate", {"factor", 0.5, 0.01, 100},
                          {0.3, "Pulses are missing or doubled: the speed shown is wrong by the factor."}),
            sender_supply_open(), sender_output_bridged()};
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
                               .pins = open_collector_pins(),
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
