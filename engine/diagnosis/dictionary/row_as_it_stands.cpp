#include "engine/diagnosis/dictionary/row_as_it_stands.h"

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/voltmeters.h"
#include "engine/diagnosis/dictionary/without_power.h"
#include "engine/simulation/operating_point.h"

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

}  // namespace

Told row_as_it_stands(const model::Circuit& circuit, const StateBase& base, const network::Fault& fault,
                      const std::vector<Finding>& findings, std::span<float> row) {
    const StateBase::Stage& stage = base.stages.back();
    const auto sound = network::build_network(circuit, stage.situation);
    network::Situation situation = stage.situation;
    situation.faults.push_back(fault);
    auto network = network::build_network(circuit, situation);
    if (!sound || !network) return Told::not_at_all;
    take_laws(stage.network, *sound, *network);
    std::vector<int> conditions = base.conditions;
    for (std::size_t i = 0; i < conditions.size(); ++i)
        if (network->forced[i]) conditions[i] = network->conditions[i];
    do {
        auto point = simulation::find_operating_point(*network, std::move(conditions), circuit);
        if (!point) return Told::not_at_all;
        conditions = std::move(point->conditions);
    } while (lets_go_without_power(*network, conditions));
    const FindingPlaces places = places_of(circuit, findings, *network);
    network::Solver solver(network->node_count, branches_with_meters(places, *network, conditions));
    network::Solution solution;
    if (!solver.solve_into(solution)) return Told::not_at_all;
    read_currents_and_signs(places, *network, conditions, solution, row);
    Voltmeters voltmeters(places, static_cast<int>(network->branches.size()));
    const bool is_read = voltmeters.read(*network, solver, solution, row);
    return is_read ? Told::as_it_stands : Told::not_at_all;
}

}  // namespace halfsplit::diagnosis
