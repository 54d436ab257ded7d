#include "engine/diagnosis/dictionary/waking.h"

#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/without_power.h"
#include "engine/network/branches_in.h"

namespace halfsplit::diagnosis {

using network::Network;
using network::NetworkDriver;
using network::NetworkTrigger;

namespace {

/// Rounds of units that give each other their supply.
constexpr int kMostRounds = 6;

/// A motor with less than this share of its usual voltage does not get anything on its way; from memory.
constexpr double kTurnsShare = 0.3;
/// Below this nothing turns; from memory.
constexpr double kStandsV = 0.5;

double rotor_v(const Network& network, const network::NetworkTravel& travel,
               const network::Solution& solution) {
    return solution.voltage_across(network.branches[at(travel.rotor)].electrical);
}

std::vector<int> with_forced(const Network& network, std::vector<int> conditions) {
    for (std::size_t i = 0; i < conditions.size(); ++i)
        if (network.forced[i]) conditions[i] = network.conditions[i];
    return conditions;
}

}  // namespace

Waking Waking::of(const model::Circuit& circuit, const Network& network, const std::vector<int>& standing,
                  const std::vector<int>& at_rest) {
    Waking waking;
    waking.standing_ = standing;
    waking.at_rest_ = at_rest;
    waking.stays_.assign(standing.size(), 0);
    waking.motor_v_.assign(network.travels.size(), 0);
    network::Solver solver(network.node_count, network::branches_in(network, standing));
    simulation::Rest rest;
    rest.conditions = standing;
    if (simulation::come_to_rest(network, circuit, solver, rest))
        for (std::size_t i = 0; i < network.travels.size(); ++i) {
            const double voltage_v = rotor_v(network, network.travels[i], rest.solution);
            if (std::abs(voltage_v) > kStandsV) waking.motor_v_[i] = voltage_v;
        }
    const bool comes = waking.come_to_rest_asleep(circuit, network, solver, rest);
    for (std::size_t i = 0; i < standing.size(); ++i)
        waking.stays_[i] = !comes || rest.conditions[i] != standing[i] ? 1 : 0;
    return waking;
}

std::vector<int> Waking::asleep(const Network& network) const {
    std::vector<int> conditions = standing_;
    const auto put_to_sleep = [&](int slot) {
        if (stays_[at(slot)] == 0) conditions[at(slot)] = at_rest_[at(slot)];
    };
    for (const NetworkTrigger& trigger : network.triggers) put_to_sleep(trigger.part);
    for (const NetworkDriver& driver : network.drivers) put_to_sleep(driver.slot);
    for (const network::NetworkFollower& follower : network.followers)
        if (motor_v_[at(follower.travel)] != 0) put_to_sleep(follower.part);
    return with_forced(network, std::move(conditions));
}

/// Units that have power now, with their outputs, and what is on its way now, as they stand in the sound
/// vehicle. True if that is anything new.
bool Waking::wake(const Network& network, simulation::Rest& rest) const {
    std::vector<int>& conditions = rest.conditions;
    bool is_new = false;
    const auto put = [&](int slot) {
        if (network.forced[at(slot)] || conditions[at(slot)] == standing_[at(slot)]) return;
        conditions[at(slot)] = standing_[at(slot)];
        is_new = true;
    };
    for (const NetworkTrigger& power : network.triggers)
        if (power.trigger.also_above >= 0 && conditions[at(power.part)] == power.trigger.above &&
            standing_[at(power.part)] == power.trigger.also_above)
            put(power.part);
    for (const NetworkDriver& driver : network.drivers)
        if (has_power(network, driver.part, conditions)) put(driver.slot);
    for (const network::NetworkFollower& follower : network.followers) {
        const double usual_v = motor_v_[at(follower.travel)];
        const double now_v = rotor_v(network, network.travels[at(follower.travel)], rest.solution);
        if (usual_v != 0 && now_v / usual_v > kTurnsShare) put(follower.part);
    }
    return is_new;
}

bool Waking::come_to_rest_asleep(const model::Circuit& circuit, const Network& network,
                                 network::Solver& solver, simulation::Rest& rest) const {
    rest.conditions = asleep(network);
    if (!simulation::come_to_rest(network, circuit, solver, rest)) return false;
    for (int round = 0; round < kMostRounds && wake(network, rest); ++round)
        if (!simulation::come_to_rest(network, circuit, solver, rest)) return false;
    return come_to_rest_with_power(circuit, network, solver, rest);
}

bool Waking::come_to_rest_standing(const model::Circuit& circuit, const Network& network,
                                   network::Solver& solver, simulation::Rest& rest) const {
    rest.conditions = with_forced(network, standing_);
    return come_to_rest_with_power(circuit, network, solver, rest);
}

}  // namespace halfsplit::diagnosis
