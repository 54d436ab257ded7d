#include "engine/simulation/settle.h"

#include "engine/base/nearest.h"
#include "engine/base/number.h"

namespace halfsplit::simulation {

using model::Circuit;
using network::Situation;

namespace {

/// Parts that move themselves go on from where they were; the rest stand where the situation puts them.
std::vector<int> starting_conditions(const network::Network& network, const std::vector<int>& before) {
    std::vector<int> conditions = network.conditions;
    if (before.empty()) return conditions;
    for (const network::NetworkTrigger& trigger : network.triggers) {
        const auto part = static_cast<std::size_t>(trigger.part);
        if (!network.forced[part]) conditions[part] = before[part];
    }
    return conditions;
}

tl::expected<Settled, Diagnostics> come_to_rest(const Circuit& circuit, const Situation& situation,
                                                const std::vector<int>& before) {
    auto network = network::build_network(circuit, situation);
    if (!network) return tl::unexpected(network.error());
    auto point = find_operating_point(*network, starting_conditions(*network, before), circuit);
    if (!point) return tl::unexpected(one_problem(point.error().message));
    return Settled{situation, std::move(*network), std::move(*point)};
}

}  // namespace

tl::expected<Settled, Diagnostics> settle(const Circuit& circuit, const Situation& situation,
                                          std::span<const model::StateStep> steps) {
    Situation present = situation;
    present.attachments.clear();
    present.insertions.clear();
    std::vector<int> conditions;
    for (const model::StateStep& step : steps) {
        if (const auto* set = std::get_if<model::SetStep>(&step)) {
            if (const auto applied = apply_set(circuit, set->what, set->to, present); !applied)
                return tl::unexpected(Diagnostics{Diagnostic{set->where, applied.error()}});
        } else {
            auto settled = come_to_rest(circuit, present, conditions);
            if (!settled) return settled;
            conditions = std::move(settled->point.conditions);
        }
    }
    const bool has_instruments = !situation.attachments.empty() || !situation.insertions.empty();
    auto settled = come_to_rest(circuit, present, conditions);
    if (!settled || !has_instruments) return settled;
    present.attachments = situation.attachments;
    present.insertions = situation.insertions;
    return come_to_rest(circuit, present, settled->point.conditions);
}

tl::expected<Settled, Diagnostics> settle_again(const Circuit& circuit, const Settled& before,
                                                const Situation& situation) {
    return come_to_rest(circuit, situation, before.point.conditions);
}

tl::expected<void, std::string> apply_set(const Circuit& circuit, const std::string& what,
                                          const std::string& to, Situation& situation) {
    const model::Part* part = circuit.find_part(what);
    const bool is_mechanism = part != nullptr && part->kind->element == "mechanism";
    if (part != nullptr && !is_mechanism) {
        situation.positions[what] = to;
        return {};
    }
    if (is_mechanism || circuit.find_quantity(what) != nullptr) {
        const auto value = read_number(to);
        if (!value)
            return tl::unexpected("'" + to + "' is no number for '" + what + "' (decimals take a point)");
        (is_mechanism ? situation.travels : situation.quantities)[what] = *value;
        return {};
    }
    std::vector<std::string> known;
    for (const model::Part& each : circuit.parts)
        if (each.kind->operation == model::Operation::person ||
            each.kind->operation == model::Operation::stated)
            known.push_back(each.id);
    for (const model::Quantity& quantity : circuit.quantities) known.push_back(quantity.id);
    return tl::unexpected("nothing called '" + what + "' can be set" + did_you_mean(what, known));
}

}  // namespace halfsplit::simulation
