#include "engine/network/moved_parts.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::network {

using model::Circuit;

namespace {

int index_of(const Circuit& circuit, std::string_view id) {
    const model::Part* part = circuit.find_part(id);
    return part == nullptr ? -1 : static_cast<int>(part - circuit.parts.data());
}

/// The rotor of a part, and the branch of the same element that stands for it while it is blocked.
void find_rotor(const Network& network, NetworkTravel& travel) {
    travel.rotor = travel.blocked = -1;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        if (network.branches[i].part == travel.motor &&
            std::holds_alternative<model::Rotor>(network.branches[i].store))
            travel.rotor = static_cast<int>(i);
    if (travel.rotor < 0) return;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        if (static_cast<int>(i) != travel.rotor &&
            network.branches[i].name == network.branches[at(travel.rotor)].name)
            travel.blocked = static_cast<int>(i);
}

void load_motor(Network& network, const NetworkTravel& travel) {
    if (auto* law = std::get_if<model::RunningMotor>(&network.branches[at(travel.rotor)].electrical.law))
        *law = model::heavier(*law, travel.travel.load_factor);
}

/// Of the motor as its maker built it, whatever ails this one.
double full_speed_v(const Circuit& circuit, int motor, const model::Quantities& quantities) {
    const model::Part& part = circuit.parts[at(motor)];
    for (const model::Element& element : electrics_of(circuit, part, part.numbers, quantities).elements)
        if (const auto* law = std::get_if<model::RunningMotor>(&element.law))
            return law->load_v - law->ohm * law->load_a;
    return 0;
}

/// Share of its travel: as asked for, else as a lock stands, else as the author starts it.
double starting_share(const Circuit& circuit, const Situation& situation, const Network& network,
                      const NetworkTravel& travel) {
    const auto asked = situation.travels.find(circuit.parts[at(travel.part)].id);
    if (asked != situation.travels.end()) return asked->second / 100;
    const model::Blocking& ends = travel.blocking;
    if (travel.part == travel.motor && ends.at_start != ends.at_end)
        return network.conditions[at(travel.motor)] == ends.at_end ? 1 : 0;
    return travel.travel.start;
}

void find_latch(const Circuit& circuit, const std::vector<model::Electrics>& electrics,
                NetworkTravel& travel) {
    const int latch = travel.travel.latch.empty() ? -1 : index_of(circuit, travel.travel.latch);
    if (latch < 0 || electrics[at(latch)].triggers.empty()) return;
    travel.latch = latch;
    travel.latch_pulled = electrics[at(latch)].triggers.front().above;
}

void add_travel(const Circuit& circuit, const Situation& situation, int part, const model::Travel& travel,
                const std::vector<model::Electrics>& electrics, Network& network) {
    NetworkTravel joined;
    joined.part = part;
    joined.motor = travel.motor.empty() ? part : index_of(circuit, travel.motor);
    joined.travel = travel;
    if (joined.motor < 0 || !electrics[at(joined.motor)].blocking) return;
    joined.blocking = *electrics[at(joined.motor)].blocking;
    find_rotor(network, joined);
    find_latch(circuit, electrics, joined);
    if (joined.rotor < 0 || joined.blocked < 0) return;
    joined.is_motor_held = situation.positions.contains(circuit.parts[at(joined.motor)].id);
    joined.full_speed_v = full_speed_v(circuit, joined.motor, network.quantities);
    load_motor(network, joined);
    if (travel.jammed && joined.part != joined.motor) {
        network.conditions[at(joined.motor)] = joined.blocking.at_end;
        network.forced[at(joined.motor)] = true;
    }
    network.travel_shares.push_back(starting_share(circuit, situation, network, joined));
    network.travels.push_back(std::move(joined));
}

void check_travels(const Circuit& circuit, const Situation& situation, const Network& network,
                   Diagnostics& problems) {
    for (const auto& [id, percent] : situation.travels) {
        const int part = index_of(circuit, id);
        const bool moves = std::ranges::any_of(
            network.travels, [&](const NetworkTravel& travel) { return travel.part == part; });
        if (!moves) problems.push_back(problem("'" + id + "' is not moved from one end to the other"));
        if (percent < 0 || percent > 100)
            problems.push_back(
                problem("'" + id + "' = " + number_text(percent) + " is out of range; expected 0 to 100 %"));
    }
}

}  // namespace

int followed_condition(const model::Follower& follower, double share) {
    const double from_end = follower.at_start ? share : 1 - share;
    return from_end <= follower.within ? follower.near : follower.away;
}

void join_moved_parts(const Circuit& circuit, const Situation& situation,
                      const std::vector<model::Electrics>& electrics, Network& network,
                      Diagnostics& problems) {
    for (int part = 0; part < static_cast<int>(electrics.size()); ++part)
        if (electrics[at(part)].travel)
            add_travel(circuit, situation, part, *electrics[at(part)].travel, electrics, network);
    check_travels(circuit, situation, network, problems);
    for (int part = 0; part < static_cast<int>(electrics.size()); ++part) {
        const auto& follower = electrics[at(part)].follower;
        if (!follower) continue;
        const int mechanism = index_of(circuit, follower->mechanism);
        const auto travel = std::ranges::find(network.travels, mechanism, &NetworkTravel::part);
        if (travel == network.travels.end()) continue;
        const int index = static_cast<int>(travel - network.travels.begin());
        network.followers.push_back({part, index, *follower});
        network.conditions[at(part)] = followed_condition(*follower, network.travel_shares[at(index)]);
        const std::string& id = circuit.parts[at(part)].id;
        if (situation.positions.contains(id))
            problems.push_back(problem("'" + id + "' is moved by '" + follower->mechanism + "'; set " +
                                       follower->mechanism + " to a percentage of its travel instead"));
    }
}

}  // namespace halfsplit::network
