#include "engine/model/chart/check_unit.h"

#include <algorithm>
#include <vector>

#include "engine/base/nearest.h"

namespace halfsplit::model::chart {
namespace {

using Kinds = std::vector<std::string_view>;

/// Kinds of pin that serve the use.
Kinds fitting_kinds(PinUse use) {
    switch (use) {
        case PinUse::volts:
        case PinUse::event:
            return {"input", "bus", "supply"};
        case PinUse::hertz:
            return {"input", "bus"};
        case PinUse::amperes:
        case PinUse::drive:
            break;
    }
    return {"high-side", "low-side", "half-bridge"};
}

bool holds(const Kinds& kinds, std::string_view kind) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

std::vector<std::string_view> fitting_pins(const Part& unit, const Kinds& kinds) {
    std::vector<std::string_view> pins;
    for (const Pin& pin : unit.pins)
        if (holds(kinds, pin.kind)) pins.push_back(pin.id);
    return pins;
}

/// Fitting pins to put right a name with: the near one, or all of them.
std::string suggestion(const Part& unit, std::string_view wrong, const Kinds& kinds) {
    const auto pins = fitting_pins(unit, kinds);
    if (pins.empty()) return "; it has no pin that is " + listed(kinds);
    const std::string hint = did_you_mean(wrong, pins);
    return hint.empty() ? "; one of " + listed(pins) + " is expected" : hint;
}

/// "" where the driver can take the level.
std::string level_problem(const PinReference& reference, const Pin& pin) {
    const bool half_bridge = pin.kind == "half-bridge";
    if (!reference.level)
        return half_bridge ? "is a half-bridge, which takes no duty; 'high', 'low' or 'off' is expected" : "";
    const bool for_bridge = *reference.level == Drive::high || *reference.level == Drive::low;
    if (*reference.level == Drive::off || for_bridge == half_bridge) return "";
    return half_bridge ? "is a half-bridge; 'high', 'low' or 'off' is expected"
                       : "is a " + pin.kind + " driver; 'on', 'off' or a number from 0 to 1 is expected";
}

/// "" where nothing is wrong.
std::string pin_problem(const PinReference& reference, const Part& unit) {
    const Kinds kinds = fitting_kinds(reference.use);
    const auto index = find_pin_index(unit, reference.pin);
    if (!index) return unit.id + " has no pin " + reference.pin + suggestion(unit, reference.pin, kinds);
    const Pin& pin = unit.pins[static_cast<std::size_t>(*index)];
    const std::string name = "pin " + reference.pin + " of " + unit.id + " ";
    if (!holds(kinds, pin.kind))
        return name + "is of kind " + pin.kind + "; " + listed(kinds) + " is expected";
    const std::string problem = reference.use == PinUse::drive ? level_problem(reference, pin) : "";
    return problem.empty() ? "" : name + problem;
}

}  // namespace

Diagnostics check_unit(const Chart& chart, const Part& unit) {
    Diagnostics problems;
    for (const PinReference& reference : chart.pins)
        if (std::string problem = pin_problem(reference, unit); !problem.empty())
            problems.push_back({reference.where, std::move(problem)});
    return problems;
}

}  // namespace halfsplit::model::chart
