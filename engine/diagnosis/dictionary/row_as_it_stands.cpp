#include "engine/diagnosis/dictionary/row_as_it_stands.h"

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/voltmeters.h"
#include "engine/network/branches_in.h"
#include "engine/simulation/time_to_act.h"

namespace halfsplit::diagnosis {

namespace {

/// What has crept in the sound vehicle has crept in this one as far.
void take_laws(const network::Network& sound, const network::Network& sound_at_rest,
               network::Network& network) {
    for (std::size_t i = 0; i < sound.branches.size(); ++i) {
        model::Law& law = network.branches[i].electrical.law;
        law = network::crept(law, sound_at_rest.branches[i].electrical.law, sound.branches[i]);
    }
}

/// Of the triggers that hold an overload for as long as the state lasts, those that acted before it began:
/// what is always fed has been overloaded all the time. They are put so; true if there are any.
bool put_what_acted_before(const model::Circuit& circuit, const std::vector<network::Fault>& faults,
                           const std::vector<int>& held, network::Network& network) {
    network::Situation before;
    before.faults = faults;
    const auto built = network::build_network(circuit, before);
    if (!built) return false;
    const auto rest = simulation::find_operating_point(*built, built->conditions, circuit);
    if (!rest) return false;
    bool is_any = false;
    for (const int trigger : held) {
        const int part = network.triggers[at(trigger)].part;
        const int acted = network.triggers[at(trigger)].trigger.above;
        if (rest->conditions[at(part)] != acted) continue;
        network.conditions[at(part)] = acted;
        network.forced[at(part)] = true;
        is_any = true;
    }
    return is_any;
}

bool come_to_rest(const model::Circuit& circuit, const StateBase& base, Start start,
                  const network::Network& network, network::Solver& solver, simulation::Rest& rest) {
    return start == Start::standing ? base.waking->come_to_rest_standing(circuit, network, solver, rest)
                                    : base.waking->come_to_rest_asleep(circuit, network, solver, rest);
}

}  // namespace

Told row_as_it_stands(const model::Circuit& circuit, const StateBase& base,
                      const std::vector<network::Fault>& faults, Start start,
                      const std::vector<Finding>& findings, std::span<float> row) {
    const StateBase::Stage& stage = base.stages.back();
    const auto sound = network::build_network(circuit, stage.situation);
    network::Situation situation = stage.situation;
    situation.faults = faults;
    auto network = network::build_network(circuit, situation);
    if (!sound || !network) return Told::not_at_all;
    take_laws(stage.network, *sound, *network);
    simulation::let_act_within(*network, base.lasts_s);
    network::Solver solver(network->node_count, network::branches_in(*network, network->conditions));
    simulation::Rest rest;
    if (!come_to_rest(circuit, base, start, *network, solver, rest)) return Told::not_at_all;
    const auto held = simulation::held_for_now(*network, base.lasts_s, rest.conditions, rest.solution);
    if (!held.empty() && put_what_acted_before(circuit, faults, held, *network) &&
        !come_to_rest(circuit, base, start, *network, solver, rest))
        return Told::not_at_all;
    const FindingPlaces places = places_of(circuit, findings, *network);
    network::Solver with_meters(network->node_count, branches_with_meters(places, *network, rest.conditions));
    network::Solution solution;
    if (!with_meters.solve_into(solution)) return Told::not_at_all;
    read_currents_and_signs(places, *network, rest.conditions, solution, row);
    Voltmeters voltmeters(places, static_cast<int>(network->branches.size()));
    const bool is_read = voltmeters.read(*network, with_meters, solution, row);
    return is_read ? Told::as_it_stands : Told::not_at_all;
}

}  // namespace halfsplit::diagnosis
