#include "engine/diagnosis/limits/vehicle.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/branches_in.h"

namespace halfsplit::diagnosis {

Vehicle::Vehicle(const model::Circuit& circuit, const simulation::Settled& settled)
    : settled_(settled),
      varied_(circuit, settled.network),
      solver_(settled.network.node_count, network::branches_in(settled.network, settled.point.conditions)) {}

tl::expected<Vehicle, Diagnostics> Vehicle::nominal(const model::Circuit& circuit,
                                                    const simulation::Settled& settled) {
    Vehicle vehicle(circuit, settled);
    if (!vehicle.solve()) return tl::unexpected(one_problem("the nominal vehicle has no operating point"));
    for (std::size_t i = 0; i < settled.network.triggers.size(); ++i) {
        const model::Trigger& trigger = settled.network.triggers[i].trigger;
        vehicle.levels_.push_back({static_cast<int>(i), trigger.rise, trigger.fall});
        // What has acted could have come to act as it now is, or has only been held since.
        const bool could_act = vehicle.watched(static_cast<int>(i)).value_or(0) >= trigger.rise;
        vehicle.hangs_on_rise_.push_back(!vehicle.is_above(static_cast<int>(i)) || could_act ? 1 : 0);
    }
    return vehicle;
}

void Vehicle::set_part(int part, const std::vector<double>& numbers) {
    for (const auto& [branch, law] : varied_.laws(part, numbers)) solver_.set_law(branch, law);
    for (const VariedNetwork::Levels& levels : varied_.levels(part, numbers))
        levels_[at(levels.trigger)] = levels;
}

void Vehicle::set_wire(int wire, double factor) {
    const auto [branch, law] = varied_.wire_law(wire, factor);
    solver_.set_law(branch, law);
}

void Vehicle::reset_part(int part) {
    for (const int branch : varied_.branches(part))
        solver_.set_law(branch, settled_.network.branches[at(branch)].electrical.law);
    for (VariedNetwork::Levels& levels : levels_) {
        const network::NetworkTrigger& trigger = settled_.network.triggers[at(levels.trigger)];
        if (trigger.part == part) levels = {levels.trigger, trigger.trigger.rise, trigger.trigger.fall};
    }
}

void Vehicle::reset_wire(int wire) {
    const int branch = varied_.branch_of_wire(wire);
    solver_.set_law(branch, settled_.network.branches[at(branch)].electrical.law);
}

bool Vehicle::solve() {
    return solver_.solve_into(solution_).has_value();
}

double Vehicle::potential_v(int node) const {
    return node == network::kBody ? 0 : solution_.potential_v[at(node)];
}

double Vehicle::reading_v(const Observation& observation) const {
    return potential_v(observation.at) - potential_v(observation.against);
}

bool Vehicle::is_above(int index) const {
    const network::NetworkTrigger& trigger = settled_.network.triggers[at(index)];
    const int present = settled_.point.conditions[at(trigger.part)];
    return present == trigger.trigger.above || present == trigger.trigger.also_above;
}

std::optional<double> Vehicle::watched(int index) const {
    const network::NetworkTrigger& trigger = settled_.network.triggers[at(index)];
    if (trigger.trigger.observed == model::Observed::quantity) return std::nullopt;
    std::optional<double> most;
    for (const int branch : trigger.branches) {
        const network::NetworkBranch& each = settled_.network.branches[at(branch)];
        if (!settled_.network.conducts(each, settled_.point.conditions)) continue;
        const double value = trigger.trigger.observed == model::Observed::element_current_a
                                 ? solution_.current_a[at(branch)]
                                 : potential_v(each.electrical.from) - potential_v(each.electrical.to);
        most = std::max(most.value_or(0), std::abs(value));
    }
    return most;
}

std::optional<double> Vehicle::margin(int trigger) const {
    const auto value = watched(trigger);
    if (!value || settled_.network.forced[at(settled_.network.triggers[at(trigger)].part)])
        return std::nullopt;
    const VariedNetwork::Levels& levels = levels_[at(trigger)];
    const double beyond = *value - (hangs_on_rise_[at(trigger)] != 0 ? levels.rise : levels.fall);
    return is_above(trigger) ? beyond : -beyond;
}

}  // namespace halfsplit::diagnosis
