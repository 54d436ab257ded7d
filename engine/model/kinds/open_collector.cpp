#include "engine/model/kinds/open_collector.h"

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/laws_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {

std::vector<PinSpec> open_collector_pins() {
    return {{"+", "supply"}, {"-", "ground"}, {"o", "signal, open collector"}};
}

NumberSpec sender_supply() {
    return {.name = "supply-ma",
            .unit = "mA",
            .fallback = 8,
            .low = 0.01,
            .high = 1000,
            .tolerance_percent = 20,
            .text = "what its electronics draw at nominal voltage"};
}

NumberSpec sender_output(double low_ohm, std::string_view text) {
    return {.name = "low-ohm",
            .unit = "ohm",
            .fallback = low_ohm,
            .low = 0.1,
            .high = 1e5,
            .tolerance_percent = 20,
            .text = text};
}

std::vector<Element> open_collector_elements(const PartView& part, std::string_view pulling) {
    const int minus = part.pin("-");
    const Resistance supply{ohm_of_current(part.nominal_v(), part.number("supply-ma"))};
    return {{"supply", part.pin("+"), minus, supply},
            {"output", part.pin("o"), minus, Resistance{part.number("low-ohm")}, {part.condition(pulling)}}};
}

FaultSpec sender_supply_open() {
    return open_fault("supply", {0.3,
                                 "Its electronics draw no current: a broken joint inside. Supply and ground "
                                 "are good at the plug."});
}

FaultSpec sender_output_bridged() {
    return short_fault("output", {0.2, "The output is bridged to -, by the value."});
}

}  // namespace halfsplit::model::kinds
