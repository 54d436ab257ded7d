#include "engine/diagnosis/dictionary/trial.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/without_power.h"
#include "engine/network/nodal/characteristic.h"
#include "engine/simulation/time_to_act.h"

namespace halfsplit::diagnosis {

using network::FaultChange;
using network::Network;

namespace {

/// What is fed by nothing stands below this, in volts; from memory.
constexpr double kLiveV = 3;

/// The network with a place for every leak there may be.
Network with_places(const Network& network, const std::set<NodePair>& leaks) {
    Network wider = network;
    for (const auto& [from, to] : leaks) {
        network::NetworkBranch leak;
        leak.electrical = {from, to, model::Resistance{1}, false};
        leak.source = network::BranchSource::fault;
        wider.branches.push_back(std::move(leak));
    }
    return wider;
}

std::map<NodePair, int> places_of_leaks(const Network& network, const std::set<NodePair>& leaks) {
    std::map<NodePair, int> places;
    int branch = static_cast<int>(network.branches.size() - leaks.size());
    for (const NodePair& leak : leaks) places.emplace(leak, branch++);
    return places;
}

void set_conducts(const Network& network, const std::vector<int>& conditions, network::Solver& solver) {
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        solver.set_conducts(static_cast<int>(i), network.conducts(network.branches[i], conditions));
}

/// Parts that move themselves go on from where they were before this stage.
std::vector<int> starting_conditions(const Network& network, const std::vector<int>& before) {
    std::vector<int> conditions = network.conditions;
    if (before.empty()) return conditions;
    for (const network::NetworkTrigger& trigger : network.triggers)
        if (!network.forced[at(trigger.part)]) conditions[at(trigger.part)] = before[at(trigger.part)];
    return conditions;
}

/// A solver keeps the line of a law that has another slope now but no other current, which at 0 V is any law.
/// What a meter reads there hangs on the slope.
void draw_lines_anew(const FaultChange& change, network::Solver& solver) {
    const auto now = solver.tangents();
    std::vector<network::Tangent> lines(now.begin(), now.end());
    bool is_changed = false;
    for (network::Tangent& line : lines)
        for (const FaultChange::Changed& changed : change.branches) {
            if (line.branch != changed.branch || !conducts(line)) continue;
            const auto [current_a, slope_s] = network::characteristic(changed.law, line.at_v);
            line = {line.branch, line.at_v, current_a, slope_s};
            is_changed = true;
        }
    if (is_changed) solver.set_tangents(lines);
}

}  // namespace

NodePair pair_of(const FaultChange::Leak& leak) {
    return std::minmax(leak.from, leak.to);
}

void add_leaks(const std::vector<FaultChange>& change, StagedLeaks& leaks) {
    for (std::size_t stage = 0; stage < change.size(); ++stage)
        for (const FaultChange::Leak& leak : change[stage].leaks) leaks[stage].insert(pair_of(leak));
}

Trial::Stage::Stage(const Network& base, double lasts_s, const FindingPlaces& places,
                    const std::set<NodePair>& leaks_there)
    : network(with_places(base, leaks_there)),
      leaks(places_of_leaks(network, leaks_there)),
      solver(network.node_count, branches_with_meters(places, network, network.conditions)) {
    simulation::let_act_within(network, lasts_s);
}

Trial::Trial(const model::Circuit& circuit, const StateBase& base, const StagedLeaks& leaks)
    : circuit_(circuit),
      base_(base),
      voltmeters_(base.places,
                  static_cast<int>(base.stages.back().network.branches.size() + leaks.back().size())) {
    for (std::size_t i = 0; i < base.stages.size(); ++i) {
        const bool is_last = i + 1 == base.stages.size();
        stages_.emplace_back(base.stages[i].network, base.lasts_s, is_last ? base.places : FindingPlaces{},
                             leaks[i]);
    }
    std::vector<float> sound(base.places.findings);
    is_sound_ = true;
    static_cast<void>(read(nullptr, sound));
    is_sound_ = false;
}

/// What the solvers know of the sound vehicle is where each row begins, whatever was there before it.
void Trial::begin(Stage& stage) {
    if (!stage.conditions.empty()) return stage.solver.go_back();
    stage.conditions = starting_conditions(stage.network, rest_.conditions);
    set_conducts(stage.network, stage.conditions, stage.solver);
    // Where there is no solution, there may be one once relays have acted.
    static_cast<void>(stage.solver.solve_into(rest_.solution));
    stage.solver.remember();
}

void Trial::put_in(const FaultChange& change, Stage& stage) const {
    Network& network = stage.network;
    for (const FaultChange::Changed& changed : change.branches) {
        network::NetworkBranch& branch = network.branches[at(changed.branch)];
        branch.electrical.law = changed.law;
        branch.electrical.conducts = changed.conducts;
        branch.always = changed.always;
        stage.solver.set_law(changed.branch, changed.law);
    }
    for (const FaultChange::Leak& leak : change.leaks) {
        const int place = stage.leaks.at(pair_of(leak));
        network::Branch& branch = network.branches[at(place)].electrical;
        branch.law = model::Resistance{leak.ohm};
        branch.conducts = true;
        stage.solver.set_law(place, branch.law);
    }
    for (const FaultChange::Held& held : change.held) {
        network.conditions[at(held.part)] = held.condition;
        network.forced[at(held.part)] = true;
    }
    for (const FaultChange::Level& level : change.levels)
        network.triggers[at(level.trigger)].trigger = simulation::acting_within(level.acts, base_.lasts_s);
}

/// Out of the network: its solver goes back before the next row.
void Trial::take_out(const FaultChange& change, const Network& sound, Stage& stage) const {
    Network& network = stage.network;
    for (const FaultChange::Changed& changed : change.branches) {
        network::NetworkBranch& branch = network.branches[at(changed.branch)];
        branch.electrical = sound.branches[at(changed.branch)].electrical;
        branch.always = sound.branches[at(changed.branch)].always;
    }
    for (const FaultChange::Leak& leak : change.leaks)
        network.branches[at(stage.leaks.at(pair_of(leak)))].electrical.conducts = false;
    for (const FaultChange::Held& held : change.held) {
        network.conditions[at(held.part)] = sound.conditions[at(held.part)];
        network.forced[at(held.part)] = sound.forced[at(held.part)];
    }
    for (const FaultChange::Level& level : change.levels)
        network.triggers[at(level.trigger)].trigger =
            simulation::acting_within(sound.triggers[at(level.trigger)].trigger, base_.lasts_s);
}

/// Whether something that conducts in the sound vehicle does not any more and yet stands under voltage at
/// both its ends: only then can it matter how the vehicle came to stand as it does, see Waking.
bool Trial::is_fed_from_behind(const Stage& stage, const FaultChange& change) const {
    const Network& sound = base_.stages.back().network;
    const auto is_live = [this](int node) { return std::abs(rest_.solution.potential_at(node)) > kLiveV; };
    const auto is_open_between_live = [&](int index) {
        const network::NetworkBranch& now = stage.network.branches[at(index)];
        return sound.conducts(sound.branches[at(index)], base_.conditions) &&
               !stage.network.conducts(now, rest_.conditions) && is_live(now.electrical.from) &&
               is_live(now.electrical.to);
    };
    if (std::ranges::any_of(change.branches,
                            [&](const auto& changed) { return is_open_between_live(changed.branch); }))
        return true;
    if (rest_.conditions == stage.conditions) return false;
    for (int i = 0; i < static_cast<int>(sound.branches.size()); ++i)
        if (!sound.branches[at(i)].conducts_in.empty() && is_open_between_live(i)) return true;
    return false;
}

bool Trial::come_to_rest(Stage& stage, const FaultChange* change) {
    const std::vector<int> before = rest_.conditions;
    begin(stage);
    if (change != nullptr) {
        put_in(*change, stage);
        draw_lines_anew(*change, stage.solver);
    }
    rest_.conditions = starting_conditions(stage.network, before);
    if (!come_to_rest_with_power(circuit_, stage.network, stage.solver, rest_)) return false;
    if (change == nullptr || !base_.waking || !is_fed_from_behind(stage, *change)) return true;
    return base_.waking->come_to_rest_asleep(circuit_, stage.network, stage.solver, rest_);
}

std::vector<int> Trial::held(const Stage& stage) const {
    return simulation::held_for_now(stage.network, base_.lasts_s, rest_.conditions, rest_.solution);
}

bool Trial::holds_more_than_sound(const Stage& stage) const {
    return base_.lives && !std::ranges::includes(held_in_sound_, held(stage));
}

bool Trial::read_at_rest(Stage& stage, std::span<float> row) {
    read_currents_and_signs(base_.places, stage.network, rest_.conditions, rest_.solution, row);
    if (!is_sound_) return voltmeters_.read(stage.network, stage.solver, rest_.solution, row);
    held_in_sound_ = held(stage);
    return voltmeters_.learn(stage.network, stage.solver, rest_.solution, row);
}

Trial::Result Trial::read(const std::vector<FaultChange>* change, std::span<float> row) {
    rest_.conditions.clear();
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        const FaultChange* here = change == nullptr ? nullptr : &(*change)[i];
        Stage& stage = stages_[i];
        Result result = come_to_rest(stage, here) ? Result::read : Result::no_rest;
        if (result == Result::read && i + 1 == stages_.size()) {
            if (here != nullptr && holds_more_than_sound(stage))
                result = Result::overloaded;
            else if (!read_at_rest(stage, row))
                result = Result::no_rest;
        }
        if (here != nullptr) take_out(*here, base_.stages[i].network, stage);
        if (result != Result::read) return result;
    }
    return Result::read;
}

}  // namespace halfsplit::diagnosis
