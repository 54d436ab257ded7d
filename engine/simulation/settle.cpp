#include "engine/simulation/settle.h"

#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/network/part_electrics.h"
#include "engine/simulation/course.h"

namespace halfsplit::simulation {

using model::Circuit;
using network::Situation;

namespace {

/// Where a state does not say how long it takes to come about.
constexpr double kAtTheEndS = 5;
/// Until an instrument that has just been connected is read.
constexpr double kInstrumentS = 0.5;
constexpr double kLookEveryS = 0.1;

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

/// Whether this says where something that travels stands: M8=40, and not S1=on.
bool is_put_in_percent(const Circuit& circuit, const model::Part& part, const std::string& to) {
    if (part.positions.empty()) return part.kind->element == "mechanism";
    if (!read_number(to) ||
        std::ranges::find(part.positions, to, &model::Position::id) != part.positions.end())
        return false;
    const model::Quantities quantities = network::complete_quantities(circuit, {});
    return network::electrics_of(circuit, part, part.numbers, quantities).travel.has_value();
}

/// Runs until nothing moves, at most for so long.
tl::expected<void, Diagnostics> run_for(Course& course, double most_s) {
    const double until_s = course.now_s() + most_s;
    while (course.now_s() < until_s && !course.is_steady())
        if (auto run = course.run_until(std::min(until_s, course.now_s() + kLookEveryS)); !run) return run;
    return {};
}

tl::expected<Settled, Diagnostics> live_on(const Circuit& circuit, const Settled& before,
                                           const Situation& situation) {
    auto course = Course::begin(circuit, before, {});
    if (!course) return tl::unexpected(course.error());
    if (auto changed = course->change(situation); !changed) return tl::unexpected(changed.error());
    if (auto run = run_for(*course, kInstrumentS); !run) return tl::unexpected(run.error());
    return course->settled_as_it_stands();
}

tl::expected<Settled, Diagnostics> live_through(const Circuit& circuit, const Situation& situation,
                                                const Situation& present,
                                                std::span<const model::StateStep> steps) {
    auto at_rest = come_to_rest(circuit, present, {});
    if (!at_rest) return at_rest;
    auto course = Course::begin(circuit, *at_rest, {});
    if (!course) return tl::unexpected(course.error());
    double left_s = kAtTheEndS;
    for (const model::StateStep& step : steps) {
        if (const auto* set = std::get_if<model::SetStep>(&step)) {
            if (auto done = course->set(set->what, set->to); !done)
                return tl::unexpected(Diagnostics{Diagnostic{set->where, done.error().front().message}});
            left_s = kAtTheEndS;
        } else {
            if (auto run = run_for(*course, std::get<model::SettleStep>(step).seconds); !run)
                return tl::unexpected(run.error());
            left_s = 0;
        }
    }
    if (auto run = run_for(*course, left_s); !run) return tl::unexpected(run.error());
    auto settled = course->settled_as_it_stands();
    const bool has_instruments = !situation.attachments.empty() || !situation.insertions.empty();
    if (!settled || !has_instruments) return settled;
    Situation probed = settled->situation;
    probed.attachments = situation.attachments;
    probed.insertions = situation.insertions;
    return live_on(circuit, *settled, probed);
}

}  // namespace

bool lives(const network::Network& network, const Circuit& circuit) {
    return !circuit.behaviours.empty() || !network.travels.empty() || !network.oscillators.empty();
}

tl::expected<Settled, Diagnostics> settle(const Circuit& circuit, const Situation& situation,
                                          std::span<const model::StateStep> steps) {
    Situation present = situation;
    present.attachments.clear();
    present.insertions.clear();
    const auto network = network::build_network(circuit, present);
    if (!network) return tl::unexpected(network.error());
    if (lives(*network, circuit)) return live_through(circuit, situation, present, steps);
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

double duration_s(std::span<const model::StateStep> steps) {
    double sum_s = 0;
    double left_s = kAtTheEndS;
    for (const model::StateStep& step : steps) {
        const auto* rest = std::get_if<model::SettleStep>(&step);
        if (rest != nullptr) sum_s += rest->seconds;
        left_s = rest != nullptr ? 0 : kAtTheEndS;
    }
    return sum_s + left_s;
}

tl::expected<Settled, Diagnostics> settle_again(const Circuit& circuit, const Settled& before,
                                                const Situation& situation) {
    if (before.living) return live_on(circuit, before, situation);
    return come_to_rest(circuit, situation, before.point.conditions);
}

tl::expected<void, std::string> apply_set(const Circuit& circuit, const std::string& what,
                                          const std::string& to, Situation& situation) {
    const model::Part* part = circuit.find_part(what);
    const bool is_mechanism = part != nullptr && is_put_in_percent(circuit, *part, to);
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
