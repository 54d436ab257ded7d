#include "engine/model/link_faults.h"

namespace halfsplit::model {

FaultSpec link_fault(std::string_view kind, LinkEffect::What what, double rate, std::string_view text) {
    return {.kind = kind,
            .element = "",
            .effect = LinkEffect{what},
            .value_unit = "",
            .rate = rate,
            .text = text};
}

FaultSpec resistive_fault(std::string_view kind, LinkEffect::What what, double ohm, double rate,
                          std::string_view text) {
    return {.kind = kind,
            .element = "",
            .effect = LinkEffect{what},
            .value_unit = "ohm",
            .value = ohm,
            .value_low = 0.001,
            .value_high = 1e7,
            .rate = rate,
            .text = text};
}

}  // namespace halfsplit::model
