#include "engine/simulation/integrator.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/base/index.h"

namespace halfsplit::simulation {

using network::NoSolution;

namespace {

/// The first stage ends at this share of the step.
constexpr double kGamma = 2 - std::numbers::sqrt2;
/// The implicit part of either stage, as a share of the step.
constexpr double kImplicit = kGamma / 2;
/// The second stage starts from this much of the middle, and the rest to 1 of the start.
constexpr double kFromMiddle = 1 / (kGamma * (2 - kGamma));
constexpr double kErrorConstant = (-3 * kGamma * kGamma + 4 * kGamma - 2) / (12 * (2 - kGamma));

/// Short against every time constant there is, long against rounding.
constexpr double kInstantS = 1e-9;

/// 1 V or 0.1 A is what a voltage or a current is measured against, the way and the heat and the filament
/// count against the whole.
constexpr double kLittleV = 1;
constexpr double kLittleA = 0.1;
constexpr double kLittleShare = 1;
/// How far what changes slowly may go within one step, whose law is that of its middle: one kelvin, which is
/// 0.4 % of a copper winding's resistance, and a thousandth of a battery's charge.
constexpr double kMostK = 1;
constexpr double kMostOfCharge = 1e-3;

/// Newton's method need not be exact to the nanovolt where the step is not to the millivolt: its tolerance,
/// times this and the step's, stays a hundredth of what a step may err by.
constexpr double kSlackOfTolerance = 1e7;
/// What is stored is told to the network in grains of this share of the tolerance, and the length of a step
/// to so many bits. What has not moved by a grain then leaves the network's factors as they are.
constexpr double kGrainOfTolerance = 1.0 / 64;
constexpr int kBitsOfStep = 32;

std::vector<network::Branch> electrical_of(std::span<const StoringBranch> branches) {
    std::vector<network::Branch> electrical;
    electrical.reserve(branches.size());
    for (const StoringBranch& each : branches) electrical.push_back(each.electrical);
    return electrical;
}

model::Store completed(model::Store store, const model::Law& law) {
    if (auto* heat = std::get_if<model::FilamentHeat>(&store))
        heat->cold_share = model::cold_share(std::get<model::Filament>(law));
    return store;
}

/// What stores nothing and is a resistance stays one: a law that is set later has the same form.
std::vector<char> joining(std::span<const StoringBranch> branches) {
    std::vector<char> result;
    result.reserve(branches.size());
    for (const StoringBranch& each : branches)
        result.push_back(std::holds_alternative<std::monostate>(each.store) &&
                                 std::holds_alternative<model::Resistance>(each.electrical.law)
                             ? 1
                             : 0);
    return result;
}

network::Chains chained(int node_count, std::span<const StoringBranch> branches) {
    return {node_count, electrical_of(branches), joining(branches)};
}

/// What the chains leave with every branch as it is in a stage: which are straight lines does not change
/// later.
std::vector<network::Branch> staged(const network::Chains& chains, std::span<const StoringBranch> branches) {
    std::vector<network::Branch> result = chains.branches();
    for (std::size_t i = 0; i < branches.size(); ++i) {
        const model::Law& law = branches[i].electrical.law;
        if (!std::holds_alternative<std::monostate>(branches[i].store))
            result[at(chains.place(static_cast<int>(i)).branch)].law =
                stage_law(law, completed(branches[i].store, law), {kInstantS, 1}, Turning::standing);
    }
    return result;
}

double rounded_to_bits(double value, int bits) {
    int exponent = 0;
    const double mantissa = std::frexp(value, &exponent);
    return std::ldexp(std::round(std::ldexp(mantissa, bits)), exponent - bits);
}

double slack_for(double tolerance) {
    return std::max(1.0, kSlackOfTolerance * tolerance);
}

double little_of(const model::Store& store) {
    if (std::holds_alternative<model::Inductance>(store)) return kLittleA;
    const bool is_voltage =
        std::holds_alternative<model::Capacitance>(store) || std::holds_alternative<model::Rotor>(store);
    return is_voltage ? kLittleV : kLittleShare;
}

double parabola(double start, double middle, double end, double share) {
    const double to_middle = (middle - start) / kGamma;
    const double bend = ((end - start) - to_middle) / (1 - kGamma);
    return start + share * (to_middle + (share - kGamma) * bend);
}

}  // namespace

Integrator::Integrator(int node_count, std::span<const StoringBranch> branches, double tolerance)
    : tolerance_(tolerance),
      branches_(electrical_of(branches)),
      number_of_branch_(branches.size(), -1),
      chains_(chained(node_count, branches)),
      solver_(chains_.node_count(), staged(chains_, branches), slack_for(tolerance)),
      at_once_(chains_.node_count(), staged(chains_, branches), slack_for(tolerance)) {
    for (std::size_t i = 0; i < branches.size(); ++i) {
        stores_.push_back(completed(branches[i].store, branches[i].electrical.law));
        if (std::holds_alternative<std::monostate>(branches[i].store)) continue;
        number_of_branch_[i] = add_number(little_of(branches[i].store));
        storing_.push_back(static_cast<int>(i));
    }
}

int Integrator::add_number(double little) {
    for (std::vector<double>* each :
         {&x_, &per_s_, &middle_x_, &middle_per_s_, &end_x_, &end_per_s_, &known_})
        each->push_back(0);
    turning_.push_back(Turning::standing);
    little_.push_back(little);
    most_in_a_step_.push_back(0);
    return static_cast<int>(x_.size()) - 1;
}

int Integrator::add_heat(int branch, double hold_a, double time_s) {
    heats_.push_back({branch, hold_a, time_s, add_number(kLittleShare)});
    return heats_.back().number;
}

int Integrator::add_way(int rotor_branch, double full_speed_v, double travel_s) {
    ways_.push_back({number_of(rotor_branch), 1 / (full_speed_v * travel_s), add_number(kLittleShare)});
    return ways_.back().number;
}

int Integrator::add_change(std::span<const int> branches, const model::SlowChange& change) {
    const bool warms = std::holds_alternative<model::Warming>(change);
    const int number = add_number(kLittleShare);
    most_in_a_step_[at(number)] = warms ? kMostK : kMostOfCharge;
    for (const int branch : branches) changes_.push_back({branch, change, law(branch), number});
    return number;
}

Turning Integrator::turning(int branch) const {
    return turning_[at(number_of(branch))];
}

void Integrator::set_turning(int branch, Turning turning) {
    turning_[at(number_of(branch))] = turning;
    if (turning == Turning::standing) x_[at(number_of(branch))] = 0;
}

void Integrator::set_conducts(int branch, bool conducts) {
    branches_[at(branch)].conducts = conducts;
    chains_.set_conducts(branch, conducts);
    const int left = chains_.place(branch).branch;
    for (network::Solver* solver : {&solver_, &at_once_})
        solver->set_conducts(left, chains_.branches()[at(left)].conducts);
    const model::Store& store = stores_[at(branch)];
    const bool lets_go =
        std::holds_alternative<model::Inductance>(store) || std::holds_alternative<model::Rotor>(store);
    if (conducts || !lets_go) return;
    x_[at(number_of(branch))] = 0;
    turning_[at(number_of(branch))] = Turning::standing;
}

void Integrator::set_law(int branch, const model::Law& at_rest) {
    branches_[at(branch)].law = at_rest;
    stores_[at(branch)] = completed(stores_[at(branch)], at_rest);
    for (Change& each : changes_)
        if (each.branch == branch) {
            each.at_rest = at_rest;
            branches_[at(branch)].law = model::changed(at_rest, each.change, x_[at(each.number)]);
        }
    put_law(branch);
}

/// Those of branches that store something are put stage by stage.
void Integrator::put_law(int branch) {
    if (number_of(branch) >= 0) return;
    chains_.set_law(branch, branches_[at(branch)].law);
    const int left = chains_.place(branch).branch;
    for (network::Solver* solver : {&solver_, &at_once_})
        solver->set_law(left, chains_.branches()[at(left)].law);
}

/// Brings the laws of what changes slowly to where it will be in so many seconds.
void Integrator::change_laws(double ahead_s) {
    for (const Change& each : changes_) {
        const double x = x_[at(each.number)] + ahead_s * per_s_[at(each.number)];
        const model::Law law = model::changed(each.at_rest, each.change, x);
        if (law == branches_[at(each.branch)].law) continue;
        branches_[at(each.branch)].law = law;
        put_law(each.branch);
    }
}

void Integrator::set_at_rest(const NetworkMoment& moment) {
    start_.potential_v.resize(at(chains_.node_count()));
    start_.current_a.resize(chains_.branches().size());
    for (int node = 0; node < chains_.node_count(); ++node)
        start_.potential_v[at(node)] = moment.potential_v[at(chains_.node_before(node))];
    for (std::size_t i = 0; i < branches_.size(); ++i) {
        const auto [branch, sign] = chains_.place(static_cast<int>(i));
        start_.current_a[at(branch)] = sign * moment.current_a[i];
    }
    for (const int branch : storing_) {
        const network::Branch& each = branches_[at(branch)];
        const double volts = each.conducts ? voltage(branch, start_) : 0;
        const std::size_t number = at(number_of(branch));
        x_[number] = state_at_rest(each.law, stores_[at(branch)], volts, current(branch, start_));
        if (std::holds_alternative<model::Rotor>(stores_[at(branch)]) && x_[number] != 0)
            turning_[number] = x_[number] > 0 ? Turning::forwards : Turning::backwards;
    }
    for (const Heat& heat : heats_) {
        const double share = current(heat.branch, start_) / heat.hold_a;
        x_[at(heat.number)] = share * share;
    }
}

/// Of a branch that no chain has taken in.
double Integrator::voltage(int branch, const NetworkMoment& moment) const {
    const auto potential = [&](int node) {
        return node == network::kBody ? 0.0 : moment.potential_v[at(node)];
    };
    const network::Branch& left = chains_.branches()[at(chains_.place(branch).branch)];
    return potential(left.from) - potential(left.to);
}

double Integrator::current(int branch, const NetworkMoment& moment) const {
    const auto [left, sign] = chains_.place(branch);
    return sign * moment.current_a[at(left)];
}

/// In grains, and only of what the network sees.
double Integrator::told(std::size_t number, double known) const {
    const double grain = kGrainOfTolerance * tolerance_ * little_[number];
    return grain * std::round(known / grain);
}

void Integrator::put_stage_laws(network::Solver& solver, double beta_s, std::span<const double> known) {
    for (const int branch : storing_) {
        const network::Branch& each = branches_[at(branch)];
        const std::size_t number = at(number_of(branch));
        if (each.conducts)
            solver.set_law(chains_.place(branch).branch,
                           stage_law(each.law, stores_[at(branch)], {beta_s, told(number, known[number])},
                                     turning_[number]));
    }
}

tl::expected<void, NoSolution> Integrator::solve_stage(network::Solver& solver, double beta_s,
                                                       std::span<const double> known, NetworkMoment& moment,
                                                       std::vector<double>& x, std::vector<double>& per_s) {
    put_stage_laws(solver, beta_s, known);
    if (auto solved = solver.solve_into(solution_); !solved) {
        solved.error().node = chains_.node_before(solved.error().node);
        return solved;
    }
    moment.potential_v.swap(solution_.potential_v);
    moment.current_a.swap(solution_.current_a);
    for (const int branch : storing_) {
        const network::Branch& each = branches_[at(branch)];
        const std::size_t number = at(number_of(branch));
        const bool cools = std::holds_alternative<model::FilamentHeat>(stores_[at(branch)]);
        per_s[number] = 0;
        if (each.conducts || cools)
            per_s[number] = rate_after_stage(
                each.law, stores_[at(branch)], {beta_s, told(number, known[number])}, turning_[number],
                each.conducts ? voltage(branch, moment) : 0, current(branch, moment));
        x[number] = known[number] + beta_s * per_s[number];
    }
    for (const Heat& heat : heats_) {
        const std::size_t number = at(heat.number);
        const double share = current(heat.branch, moment) / heat.hold_a;
        x[number] = (known[number] + beta_s / heat.time_s * share * share) / (1 + beta_s / heat.time_s);
        per_s[number] = (share * share - x[number]) / heat.time_s;
    }
    for (std::size_t i = 0; i < changes_.size();) {
        const std::size_t number = at(changes_[i].number);
        model::Pace sum;
        for (; i < changes_.size() && at(changes_[i].number) == number; ++i) {
            const Change& each = changes_[i];
            const model::Pace pace = model::pace(branches_[at(each.branch)].law, each.change, known[number],
                                                 current(each.branch, moment));
            sum = {sum.gain + pace.gain, pace.fading_per_s};
        }
        x[number] = (known[number] + beta_s * sum.gain) / (1 + beta_s * sum.fading_per_s);
        per_s[number] = sum.gain - sum.fading_per_s * x[number];
    }
    for (const Way& way : ways_) {
        const std::size_t number = at(way.number);
        per_s[number] = x[at(way.rotor)] * way.per_s_and_v;
        x[number] = known[number] + beta_s * per_s[number];
    }
    return {};
}

tl::expected<void, NoSolution> Integrator::look() {
    change_laws(0);
    return solve_stage(at_once_, kInstantS, x_, start_, end_x_, per_s_);
}

tl::expected<double, NoSolution> Integrator::try_step(double step_s) {
    const double beta_s = rounded_to_bits(kImplicit * step_s, kBitsOfStep);
    change_laws(step_s / 2);
    for (std::size_t i = 0; i < x_.size(); ++i) known_[i] = x_[i] + beta_s * per_s_[i];
    if (auto solved = solve_stage(solver_, beta_s, known_, middle_, middle_x_, middle_per_s_); !solved)
        return tl::unexpected(solved.error());
    for (std::size_t i = 0; i < x_.size(); ++i) known_[i] = x_[i] + kFromMiddle * (middle_x_[i] - x_[i]);
    if (auto solved = solve_stage(solver_, beta_s, known_, end_, end_x_, end_per_s_); !solved)
        return tl::unexpected(solved.error());
    return error_in_tolerances(step_s);
}

double Integrator::scale_of(std::size_t number) const {
    return tolerance_ * std::max({little_[number], std::abs(x_[number]), std::abs(end_x_[number])});
}

double Integrator::error_in_tolerances(double step_s) const {
    double worst = 0;
    for (std::size_t i = 0; i < x_.size(); ++i) {
        if (most_in_a_step_[i] > 0) {
            worst = std::max(worst, std::abs(end_x_[i] - x_[i]) / most_in_a_step_[i]);
            continue;
        }
        const double rates =
            per_s_[i] / kGamma - middle_per_s_[i] / (kGamma * (1 - kGamma)) + end_per_s_[i] / (1 - kGamma);
        worst = std::max(worst, std::abs(2 * kErrorConstant * step_s * rates) / scale_of(i));
    }
    return worst;
}

void Integrator::accept() {
    std::swap(start_, end_);
    std::swap(x_, end_x_);
    std::swap(per_s_, end_per_s_);
}

double Integrator::potential_at(int node, double share) const {
    if (node == network::kBody) return 0;
    const network::Chains::Spot& spot = chains_.spot(node);
    const auto of = [&](int left) {
        if (left == network::kBody) return 0.0;
        if (share == 0) return start_.potential_v[at(left)];
        return parabola(start_.potential_v[at(left)], middle_.potential_v[at(left)],
                        end_.potential_v[at(left)], share);
    };
    const double from_v = of(spot.from);
    return spot.from == spot.to ? from_v : from_v + spot.share * (of(spot.to) - from_v);
}

double Integrator::voltage_at(int branch, double share) const {
    return potential_at(branches_[at(branch)].from, share) - potential_at(branches_[at(branch)].to, share);
}

double Integrator::current_at(int branch, double share) const {
    if (share == 0) return current(branch, start_);
    return parabola(current(branch, start_), current(branch, middle_), current(branch, end_), share);
}

double Integrator::value_at(int number, double share) const {
    return parabola(x_[at(number)], middle_x_[at(number)], end_x_[at(number)], share);
}

bool Integrator::is_steady() const {
    constexpr double kLookAheadS = 1;
    for (std::size_t i = 0; i < x_.size(); ++i)
        if (most_in_a_step_[i] == 0 && std::abs(per_s_[i]) * kLookAheadS > scale_of(i)) return false;
    return true;
}

}  // namespace halfsplit::simulation
