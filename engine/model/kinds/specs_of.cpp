#include "engine/model/kinds/specs_of.h"

namespace halfsplit::model::kinds {

NumberSpec switch_ohm(double fallback, std::string_view text) {
    return {.name = "switch-ohm",
            .unit = "ohm",
            .fallback = fallback,
            .low = 1e-5,
            .high = 10,
            .tolerance_percent = 50,
            .text = text};
}

WordSpec felt_temperature() {
    return {.name = "quantity",
            .choices = {},
            .fallback = "",
            .text = "the temperature it feels",
            .required = true,
            .refers_to = "quantity"};
}

}  // namespace halfsplit::model::kinds
