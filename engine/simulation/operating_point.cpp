#include "engine/simulation/operating_point.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "engine/network/branches_in.h"

namespace halfsplit::simulation {

using network::Network;
using network::NetworkBranch;
using network::NetworkTrigger;

namespace {

double observed_value(const Network& network, const NetworkTrigger& trigger,
                      const network::Solution& solution) {
    if (trigger.trigger.observed == model::Observed::quantity) {
        const auto quantity = network.quantities.find(trigger.trigger.subject);
        return quantity == network.quantities.end() ? 0.0 : quantity->second;
    }
    double value = 0;
    for (const int branch : trigger.branches) {
        const bool is_voltage = trigger.trigger.observed == model::Observed::element_voltage_v;
        // A torn coil carries exactly nothing and pulls nothing, whatever stands between its ends.
        if (solution.current_a[static_cast<std::size_t>(branch)] == 0) continue;
        const double here =
            is_voltage
                ? solution.voltage_across(network.branches[static_cast<std::size_t>(branch)].electrical)
                : solution.current_a[static_cast<std::size_t>(branch)];
        value = std::max(value, std::abs(here));
    }
    return value;
}

struct Change {
    int part = 0;
    int condition = 0;
    double overload = 0;  ///< observed value over the trigger's `rise`
};

/// The condition the part is drawn to, or nullopt where it stays as it is.
std::optional<Change> change_of(const Network& network, const NetworkTrigger& trigger, int present,
                                const network::Solution& solution) {
    if (network.forced[static_cast<std::size_t>(trigger.part)]) return std::nullopt;
    const double value = observed_value(network, trigger, solution);
    const double overload = value / trigger.trigger.rise;
    if (value >= trigger.trigger.rise && present != trigger.trigger.above &&
        present != trigger.trigger.also_above)
        return Change{trigger.part, trigger.trigger.above, overload};
    if (value <= trigger.trigger.fall && present != trigger.trigger.below)
        return Change{trigger.part, trigger.trigger.below, overload};
    return std::nullopt;
}

enum class Pace { all_at_once, one_by_one };

/// Relays act in milliseconds, fuses in seconds: those that watch a current wait until nothing else moves,
/// and of them only the most overloaded goes, which spares the others.
std::vector<Change> changes_now(const Network& network, const std::vector<int>& conditions,
                                const network::Solution& solution, Pace pace) {
    std::vector<Change> quick;
    std::optional<Change> slow;
    for (const NetworkTrigger& trigger : network.triggers) {
        const auto change =
            change_of(network, trigger, conditions[static_cast<std::size_t>(trigger.part)], solution);
        if (!change) continue;
        if (trigger.trigger.observed != model::Observed::element_current_a)
            quick.push_back(*change);
        else if (!slow || change->overload > slow->overload)
            slow = change;
        if (pace == Pace::one_by_one && !quick.empty()) break;
    }
    if (quick.empty() && slow) quick.push_back(*slow);
    return quick;
}

/// Solves in given conditions, again and again over one analysed structure, which may have further branches.
class ConditionedSolver {
  public:
    ConditionedSolver(const Network& network, std::vector<int> conditions, network::Solver& solver)
        : network_(network), conditions_(std::move(conditions)), solver_(solver) {
        for (std::size_t i = 0; i < network_.branches.size(); ++i)
            solver_.set_conducts(static_cast<int>(i), network_.conducts(network_.branches[i], conditions_));
    }

    const std::vector<int>& conditions() const { return conditions_; }

    void change(int part, int condition) {
        conditions_[static_cast<std::size_t>(part)] = condition;
        for (std::size_t i = 0; i < network_.branches.size(); ++i)
            if (network_.branches[i].part == part)
                solver_.set_conducts(static_cast<int>(i),
                                     network_.conducts(network_.branches[i], conditions_));
    }

    tl::expected<void, network::NoSolution> solve_into(network::Solution& solution) {
        return solver_.solve_into(solution);
    }

  private:
    const Network& network_;
    std::vector<int> conditions_;
    network::Solver& solver_;
};

NoRest no_solution(const Network& network, const network::NoSolution& failure) {
    const std::string where =
        failure.node == network::kBody ? "body" : network.node_names[static_cast<std::size_t>(failure.node)];
    return {"no operating point: " + failure.reason + " at " + where, {}};
}

NoRest chatter(const model::Circuit& circuit, const std::set<int>& parts) {
    NoRest failure{"the circuit never comes to rest: ", {parts.begin(), parts.end()}};
    for (const int part : failure.chattering) {
        if (part != failure.chattering.front()) failure.message += ", ";
        failure.message += circuit.parts[static_cast<std::size_t>(part)].id;
    }
    failure.message += failure.chattering.size() == 1 ? " keeps switching" : " keep switching";
    return failure;
}

OperatingPoint point_of(const Network& network, const network::Solver& solver, Rest rest) {
    OperatingPoint point;
    point.conditions = std::move(rest.conditions);
    point.potential_v = std::move(rest.solution.potential_v);
    point.current_a = std::move(rest.solution.current_a);
    point.floating.assign(static_cast<std::size_t>(network.node_count), false);
    for (const int node : solver.floating_nodes()) point.floating[static_cast<std::size_t>(node)] = true;
    point.worst_residual_a = rest.solution.worst_residual_a;
    point.energy_mismatch_w = rest.solution.energy_mismatch_w;
    point.rounds = rest.rounds;
    return point;
}

network::Solver solver_in(const Network& network, const std::vector<int>& conditions) {
    return {network.node_count, branches_in(network, conditions)};
}

/// Parts react together, as relays do; where that runs in a circle, one at a time in the author's order may
/// still come to rest (of two relays that lock each other out, one is quicker in any real car).
tl::expected<void, NoRest> iterate(const Network& network, const model::Circuit& circuit, Pace pace,
                                   network::Solver& solver_of_network, Rest& rest) {
    ConditionedSolver solver(network, rest.conditions, solver_of_network);
    std::set<std::vector<int>> seen;
    std::set<int> restless;
    for (int round = 0;; ++round) {
        if (auto solved = solver.solve_into(rest.solution); !solved)
            return tl::unexpected(no_solution(network, solved.error()));
        const std::vector<Change> changes = changes_now(network, solver.conditions(), rest.solution, pace);
        if (changes.empty()) {
            rest.conditions = solver.conditions();
            rest.rounds = round;
            return {};
        }
        const bool running_in_a_circle = !seen.insert(solver.conditions()).second;
        if (running_in_a_circle && restless.contains(changes.front().part))
            return tl::unexpected(chatter(circuit, restless));
        for (const auto& [part, condition, overload] : changes) {
            solver.change(part, condition);
            if (running_in_a_circle) restless.insert(part);
        }
    }
}

}  // namespace

tl::expected<void, NoRest> come_to_rest(const Network& network, const model::Circuit& circuit,
                                        network::Solver& solver, Rest& rest) {
    const std::vector<int> start = rest.conditions;
    auto together = iterate(network, circuit, Pace::all_at_once, solver, rest);
    if (together || together.error().chattering.empty()) return together;
    rest.conditions = start;
    return iterate(network, circuit, Pace::one_by_one, solver, rest);
}

tl::expected<OperatingPoint, NoRest> find_operating_point(const Network& network, std::vector<int> conditions,
                                                          const model::Circuit& circuit) {
    const auto from_cold = [&](Pace pace) -> tl::expected<OperatingPoint, NoRest> {
        network::Solver solver = solver_in(network, conditions);
        Rest rest{conditions, {}, 0};
        if (auto came = iterate(network, circuit, pace, solver, rest); !came)
            return tl::unexpected(came.error());
        return point_of(network, solver, std::move(rest));
    };
    auto together = from_cold(Pace::all_at_once);
    if (together || together.error().chattering.empty()) return together;
    return from_cold(Pace::one_by_one);
}

tl::expected<OperatingPoint, NoRest> solve_in_conditions(const Network& network,
                                                         const std::vector<int>& conditions) {
    network::Solver solver = solver_in(network, conditions);
    Rest rest{conditions, {}, 0};
    if (auto solved = solver.solve_into(rest.solution); !solved)
        return tl::unexpected(no_solution(network, solved.error()));
    return point_of(network, solver, std::move(rest));
}

}  // namespace halfsplit::simulation
