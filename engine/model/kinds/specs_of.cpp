#include "engine/model/kinds/specs_of.h"

#include "engine/model/kinds/laws_of.h"

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

namespace {

// A coil of some ten grams of copper in a plastic can is warm after minutes; from memory.
constexpr double kCoilWarmsS = 300;

}  // namespace

NumberSpec coil_warms() {
    return {.name = "coil-warms-k",
            .unit = "K",
            .fallback = 50,  // from memory
            .low = 0.1,
            .high = 300,
            .tolerance_percent = 20,
            .text =
                "how much warmer the coil would get in the long run if it went on drawing the current it "
                "draws cold at nominal voltage; warm, it draws less and pulls less"};
}

Warming coil_warming(const PartView& part) {
    const double cold_w = part.nominal_v() * part.nominal_v() / part.authored("coil-ohm");
    return copper_winding(part.number("coil-warms-k"), cold_w, kCoilWarmsS);
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
