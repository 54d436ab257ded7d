#include "engine/simulation/circumstances.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "engine/base/index.h"
#include "engine/model/driver_levels.h"
#include "engine/simulation/find_deeds.h"
#include "engine/simulation/settle.h"

namespace halfsplit::simulation {

using network::Network;
using network::NetworkBranch;

namespace {

/// While a quantity ramps, parts that follow it see it move in steps of this length.
constexpr double kTickS = 0.02;
/// What beats quicker than this hums, and is not told beat by beat.
constexpr double kToldUpToHz = 10;

bool same_structure(const Network& a, const Network& b) {
    const auto same = [](const NetworkBranch& left, const NetworkBranch& right) {
        return left.electrical.from == right.electrical.from && left.electrical.to == right.electrical.to &&
               left.name == right.name && left.electrical.law.index() == right.electrical.law.index();
    };
    return a.node_count == b.node_count &&
           std::equal(a.branches.begin(), a.branches.end(), b.branches.begin(), b.branches.end(), same);
}

}  // namespace

Circumstances::Circumstances(const model::Circuit& circuit, Network network, CourseState state)
    : circuit_(&circuit), network_(std::move(network)), state_(std::move(state)) {
    connect();
}

/// Puts the network into an integrator, in the conditions of the state.
void Circumstances::connect() {
    size_state();
    std::vector<StoringBranch> branches;
    branches.reserve(network_.branches.size());
    branches_of_slot_.assign(state_.conditions.size(), {});
    for (std::size_t i = 0; i < network_.branches.size(); ++i) {
        const NetworkBranch& each = network_.branches[i];
        branches.push_back({each.electrical, each.store});
        branches.back().electrical.conducts = network_.conducts(each, state_.conditions);
        if (each.slot >= 0) branches_of_slot_[at(each.slot)].push_back(static_cast<int>(i));
    }
    integrator_ = std::make_unique<Integrator>(network_.node_count, branches);
    units_ = units_of(*circuit_, network_);
    state_.units.resize(units_.size());
    numbers_ = {};
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (std::holds_alternative<model::Rotor>(branches[i].store))
            numbers_.rotors.push_back(static_cast<int>(i));
    for (const network::NetworkTrigger& trigger : network_.triggers) {
        const bool heats = trigger.trigger.heat_s > 0 && !trigger.branches.empty();
        numbers_.heat_of_trigger.push_back(heats ? integrator_->add_heat(trigger.branches.front(),
                                                                         trigger.trigger.rise,
                                                                         trigger.trigger.heat_s)
                                                 : -1);
    }
    connect_changes();
    for (std::size_t i = 0; i < network_.travels.size(); ++i) {
        const network::NetworkTravel& travel = network_.travels[i];
        const int number = integrator_->add_way(travel.rotor, travel.full_speed_v, travel.travel.travel_s);
        integrator_->set_value(number, network_.travel_shares[i]);
        numbers_.way_of_travel.push_back(number);
    }
}

/// Branches of one name are one thing in several conditions: a winding that turns or stands is warm in both.
void Circumstances::connect_changes() {
    std::map<std::string_view, std::vector<int>> named;
    for (std::size_t i = 0; i < network_.branches.size(); ++i)
        if (!std::holds_alternative<std::monostate>(network_.branches[i].change))
            named[network_.branches[i].name].push_back(static_cast<int>(i));
    for (const auto& [name, branches] : named)
        numbers_.changes.emplace(
            name, integrator_->add_change(branches, network_.branches[at(branches.front())].change));
}

void Circumstances::size_state() {
    if (state_.conditions.empty()) state_.conditions = network_.conditions;
    state_.waiting.resize(network_.triggers.size());
    state_.beats.resize(network_.oscillators.size());
}

void Circumstances::begin_at(const OperatingPoint& point) {
    for (std::size_t slot = 0; slot < point.conditions.size(); ++slot)
        if (point.conditions[slot] != state_.conditions[slot]) {
            state_.conditions[slot] = point.conditions[slot];
            for (const int branch : branches_of_slot_[slot])
                integrator_->set_conducts(
                    branch, network_.conducts(network_.branches[at(branch)], state_.conditions));
        }
    integrator_->set_at_rest({point.potential_v, point.current_a});
}

bool Circumstances::resume() {
    return integrator_->resume(state_.stored);
}

tl::expected<void, Diagnostics> Circumstances::do_all(const std::vector<Deed>& deeds) {
    network_changed_ = false;
    for (const Deed& deed : deeds)
        if (auto done = do_one(deed); !done) return done;
    if (!network_changed_) return {};
    if (const auto seen = integrator_->look(); !seen) return tl::unexpected(no_solution(seen.error()));
    return {};
}

tl::expected<void, Diagnostics> Circumstances::do_one(const Deed& deed) {
    if (const auto* each = std::get_if<Switch>(&deed)) switch_to(each->slot, each->condition);
    if (const auto* each = std::get_if<StartWaiting>(&deed))
        state_.waiting[at(each->trigger)] = Waiting{each->condition, each->due_s};
    if (const auto* each = std::get_if<StopWaiting>(&deed)) state_.waiting[at(each->trigger)].reset();
    if (const auto* each = std::get_if<Turn>(&deed)) turn(*each);
    if (const auto* each = std::get_if<PutWay>(&deed)) integrator_->set_value(each->number, each->share);
    if (const auto* each = std::get_if<TakeBeat>(&deed)) take_beat(each->oscillator);
    if (const auto* each = std::get_if<StopBeat>(&deed)) state_.beats[at(each->oscillator)].next_s = kNever;
    if (const auto* each = std::get_if<StartBeat>(&deed)) {
        Beat& beat = state_.beats[at(each->oscillator)];
        beat.next_s = state_.now_s + half_period_s(network_.oscillators[at(each->oscillator)],
                                                   view(state_.now_s, 0), beat.hurries);
    }
    if (std::holds_alternative<CarryOutSet>(deed)) return carry_out_next_set();
    if (std::holds_alternative<LookAtWorld>(deed)) return look_at_world();
    return do_to_unit(deed);
}

void Circumstances::switch_to(int slot, int condition) {
    for (std::size_t i = 0; i < network_.triggers.size(); ++i)
        if (network_.triggers[i].part == slot) state_.waiting[i].reset();
    if (state_.conditions[at(slot)] == condition) return;
    state_.conditions[at(slot)] = condition;
    for (const int branch : branches_of_slot_[at(slot)])
        integrator_->set_conducts(branch,
                                  network_.conducts(network_.branches[at(branch)], state_.conditions));
    network_changed_ = true;
    tell(slot, condition);
}

void Circumstances::tell(int slot, int condition) {
    if (slot >= static_cast<int>(circuit_->parts.size())) return;
    for (const network::NetworkOscillator& oscillator : network_.oscillators)
        if (oscillator.part == slot &&
            (!oscillator.oscillator.quantity.empty() || oscillator.oscillator.rate_hz > kToldUpToHz))
            return;
    const model::Part& part = circuit_->parts[at(slot)];
    events_.push_back({state_.now_s, part.id, part.positions[at(condition)].id});
}

void Circumstances::turn(const Turn& deed) {
    integrator_->set_turning(deed.rotor, deed.turning);
    network_changed_ = true;
    const int part = network_.branches[at(deed.rotor)].part;
    const std::string what = deed.turning == Turning::standing   ? "stands still"
                             : deed.turning == Turning::forwards ? "turns forwards"
                                                                 : "turns backwards";
    events_.push_back({state_.now_s, circuit_->parts[at(part)].id, what});
}

void Circumstances::take_beat(int index) {
    const network::NetworkOscillator& oscillator = network_.oscillators[at(index)];
    Beat& beat = state_.beats[at(index)];
    const bool was_on = state_.conditions[at(oscillator.part)] == oscillator.oscillator.on;
    const bool watches = !oscillator.watched.empty();
    const ViewInTime now = view(state_.now_s, 0);
    if (was_on && watches) beat.hurries = watched_a(now, oscillator) < oscillator.oscillator.hurries_below_a;
    const double half_s = half_period_s(oscillator, now, beat.hurries);
    beat.next_s = watches && !was_on ? kNever : state_.now_s + half_s;
    switch_to(oscillator.part, was_on ? oscillator.oscillator.off : oscillator.oscillator.on);
}

/// What is left of a half period gets longer or shorter with the rate.
void Circumstances::follow_beats(std::string_view quantity, double rate_factor) {
    for (std::size_t i = 0; i < network_.oscillators.size(); ++i) {
        Beat& beat = state_.beats[i];
        if (network_.oscillators[i].oscillator.quantity != quantity || beat.next_s == kNever) continue;
        beat.next_s = rate_factor > 0 ? state_.now_s + (beat.next_s - state_.now_s) / rate_factor : kNever;
    }
}

tl::expected<void, Diagnostics> Circumstances::set_quantity(const std::string& id, double value) {
    const double before = network_.quantities[id];
    if (before == value) return {};
    state_.situation.quantities[id] = value;
    follow_beats(id, before > 0 ? value / before : 0);
    if (network_.felt.contains(id)) return rebuild();
    network_.quantities[id] = value;
    return {};
}

tl::expected<void, Diagnostics> Circumstances::change(const network::Situation& situation) {
    auto built = network::build_network(*circuit_, situation);
    if (!built) return tl::unexpected(built.error());
    take_conditions(*built, situation);
    state_.situation = situation;
    network_changed_ = false;
    take(std::move(*built));
    if (const auto seen = integrator_->look(); !seen) return tl::unexpected(no_solution(seen.error()));
    return {};
}

/// Builds the network again as the situation now is.
tl::expected<void, Diagnostics> Circumstances::rebuild() {
    auto built = network::build_network(*circuit_, state_.situation);
    if (!built) return tl::unexpected(built.error());
    take(std::move(*built));
    return {};
}

/// What a fault holds in a condition, or has ceased to hold, and what is set to another position by the new
/// situation. Everything else stays in the condition it has come to.
void Circumstances::take_conditions(const Network& built, const network::Situation& situation) {
    const auto position_in = [](const network::Situation& which, const std::string& part) {
        const auto found = which.positions.find(part);
        return found == which.positions.end() ? std::string() : found->second;
    };
    for (std::size_t slot = 0; slot < built.conditions.size(); ++slot) {
        const bool is_held = built.forced[slot] || network_.forced[slot];
        const bool is_set =
            slot < circuit_->parts.size() && position_in(situation, circuit_->parts[slot].id) !=
                                                 position_in(state_.situation, circuit_->parts[slot].id);
        if (is_held || is_set) state_.conditions[slot] = built.conditions[slot];
    }
}

/// Mostly only values differ; where a fault comes and goes the structure does, and what is stored is carried
/// over branch by branch.
void Circumstances::take(Network built) {
    if (same_structure(network_, built))
        take_values(std::move(built));
    else
        take_structure(std::move(built));
}

void Circumstances::take_values(Network built) {
    for (std::size_t i = 0; i < built.branches.size(); ++i) {
        const NetworkBranch& now = built.branches[i];
        const int branch = static_cast<int>(i);
        const bool conducts = built.conducts(now, state_.conditions);
        const bool same_law = now.electrical.law == network_.branches[i].electrical.law;
        if (same_law && conducts == integrator_->conducts(branch)) continue;
        if (!same_law) integrator_->set_law(branch, now.electrical.law);
        if (conducts != integrator_->conducts(branch)) integrator_->set_conducts(branch, conducts);
        network_changed_ = true;
    }
    network_ = std::move(built);
}

void Circumstances::take_structure(Network built) {
    const std::unique_ptr<Integrator> before = std::move(integrator_);
    const Network network_before = std::exchange(network_, std::move(built));
    const Numbers numbers_before = numbers_;
    connect();
    network_changed_ = true;
    std::multimap<std::string_view, int> named;
    for (std::size_t i = 0; i < network_before.branches.size(); ++i)
        if (before->number_of(static_cast<int>(i)) >= 0)
            named.emplace(network_before.branches[i].name, static_cast<int>(i));
    for (std::size_t i = 0; i < network_.branches.size(); ++i) {
        const int branch = static_cast<int>(i);
        const auto found = named.find(network_.branches[i].name);
        if (integrator_->number_of(branch) < 0 || found == named.end()) continue;
        integrator_->set_value(integrator_->number_of(branch),
                               before->value(before->number_of(found->second)));
        if (before->turning(found->second) != Turning::standing)
            integrator_->set_turning(branch, before->turning(found->second));
        named.erase(found);
    }
    const auto carry_over = [&](const std::vector<int>& from, const std::vector<int>& to) {
        for (std::size_t i = 0; i < std::min(from.size(), to.size()); ++i)
            if (from[i] >= 0 && to[i] >= 0) integrator_->set_value(to[i], before->value(from[i]));
    };
    for (const auto& [name, number] : numbers_before.changes)
        if (const auto found = numbers_.changes.find(name); found != numbers_.changes.end())
            integrator_->set_value(found->second, before->value(number));
    carry_over(numbers_before.heat_of_trigger, numbers_.heat_of_trigger);
    carry_over(numbers_before.way_of_travel, numbers_.way_of_travel);
}

void Circumstances::put_way(const std::string& mechanism, double share) {
    for (std::size_t i = 0; i < network_.travels.size(); ++i)
        if (circuit_->parts[at(network_.travels[i].part)].id == mechanism)
            integrator_->set_value(numbers_.way_of_travel[i], share);
}

tl::expected<void, Diagnostics> Circumstances::carry_out_next_set() {
    const TimedSet set = state_.to_come.front();
    state_.to_come.erase(state_.to_come.begin());
    network::Situation asked;
    if (const auto applied = apply_set(*circuit_, set.what, set.to, asked); !applied)
        return tl::unexpected(one_problem(applied.error()));
    events_.push_back({state_.now_s, set.what, "set to " + set.to});
    for (const auto& [id, position] : asked.positions) {
        state_.situation.positions[id] = position;
        const model::Part& part = *circuit_->find_part(id);
        const auto found = std::ranges::find(part.positions, position, &model::Position::id);
        const int slot = static_cast<int>(&part - circuit_->parts.data());
        if (found == part.positions.end() || network_.forced[at(slot)]) continue;
        events_.pop_back();
        switch_to(slot, static_cast<int>(found - part.positions.begin()));
        if (auto built = rebuild(); !built) return built;
    }
    for (const auto& [id, percent] : asked.travels) {
        state_.situation.travels[id] = percent;
        put_way(id, percent / 100);
    }
    for (const auto& [id, value] : asked.quantities) {
        std::erase_if(state_.ramps, [&quantity = id](const Ramp& ramp) { return ramp.quantity == quantity; });
        if (set.over_s <= 0) return set_quantity(id, value);
        state_.ramps.push_back({id, network_.quantities[id], value, state_.now_s, state_.now_s + set.over_s});
        state_.next_tick_s = state_.now_s;
    }
    return {};
}

tl::expected<void, Diagnostics> Circumstances::look_at_world() {
    std::vector<std::pair<std::string, double>> values;
    double next_s = kNever;
    for (const Ramp& ramp : state_.ramps) {
        values.emplace_back(ramp.quantity, quantity_at(network_, state_, ramp.quantity, state_.now_s));
        if (ramp.end_s > state_.now_s) next_s = std::min({next_s, ramp.end_s, state_.now_s + kTickS});
    }
    std::erase_if(state_.ramps, [&](const Ramp& ramp) { return ramp.end_s <= state_.now_s; });
    state_.next_tick_s = next_s;
    for (const auto& [id, value] : values)
        if (auto set = set_quantity(id, value); !set) return set;
    return {};
}

Diagnostics Circumstances::no_solution(const network::NoSolution& failure) const {
    const std::string where = failure.node == network::kBody ? "body" : network_.node_names[at(failure.node)];
    return one_problem("at " + std::to_string(state_.now_s) + " s: " + failure.reason + " at " + where);
}

Diagnostics Circumstances::chatters(const std::vector<Deed>& deeds) const {
    std::set<std::string> names;
    const auto add_unit = [&](int unit) { names.insert(circuit_->parts[at(units_[at(unit)].part)].id); };
    for (const Deed& deed : deeds) {
        if (const auto* each = std::get_if<UnitPower>(&deed)) add_unit(each->unit);
        if (const auto* each = std::get_if<UnitActs>(&deed)) add_unit(each->unit);
        if (const auto* each = std::get_if<InputTurns>(&deed)) add_unit(each->unit);
        if (const auto* each = std::get_if<DriverTrips>(&deed)) add_unit(each->unit);
        if (const auto* each = std::get_if<Switch>(&deed);
            each != nullptr && each->slot < static_cast<int>(circuit_->parts.size()))
            names.insert(circuit_->parts[at(each->slot)].id);
        if (const auto* each = std::get_if<Turn>(&deed))
            names.insert(circuit_->parts[at(network_.branches[at(each->rotor)].part)].id);
    }
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
    return one_problem("at " + std::to_string(state_.now_s) + " s the circuit switches without end: " + list);
}

}  // namespace halfsplit::simulation
