#include "engine/network/solver.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "engine/network/characteristic.h"
#include "engine/network/elimination.h"
#include "engine/network/islands.h"

namespace halfsplit::network {

namespace {

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// Newton is done when no nonlinear branch's voltage moves more than this.
constexpr double kSettledV = 1e-10;
/// Below this the safe search leaves the rest to the quick one.
constexpr double kPolishV = 1e-4;
constexpr int kQuickSteps = 60;
constexpr int kSafeSteps = 500;
/// A rectifier or junction that passes no more than this, whatever the voltage, holds nothing up (a 10 Mohm
/// meter would bring it down by a millivolt).
constexpr double kBlockingA = 1e-10;
/// Kirchhoff's current law holds to this, and to this share of the largest current at a node.
constexpr double kResidualA = 1e-9;
constexpr double kResidualShare = 1e-9;

/// Where to take a junction's tangent next, so that no step runs up its exponential (the usual limiting of
/// junction voltages, Nagel, SPICE2, 1975, from memory).
double limited_voltage(const model::Junction& junction, double wanted_v, double present_v) {
    const double critical_v =
        junction.slope_v * std::log(junction.slope_v / (std::sqrt(2.0) * junction.saturation_a));
    if (wanted_v <= critical_v || std::abs(wanted_v - present_v) <= 2 * junction.slope_v) return wanted_v;
    if (present_v <= 0)
        return junction.slope_v * std::log(std::max(wanted_v / junction.slope_v, 1.0)) +
               std::min(critical_v, 0.0);
    const double ratio = 1 + (wanted_v - present_v) / junction.slope_v;
    return ratio > 0 ? present_v + junction.slope_v * std::log(ratio) : critical_v;
}

}  // namespace

struct Solver::State {
    State(int nodes, std::span<const Branch> all)
        : node_count(nodes),
          branches(all.begin(), all.end()),
          elimination(nodes, couplings_of(all)),
          volts(at(nodes), 0) {
        for (const Branch& branch : branches) require_branch(branch);
        sort_branches();
        tangent_v.assign(branches.size(), 0);
    }

    static std::vector<Coupling> couplings_of(std::span<const Branch> all) {
        std::vector<Coupling> couplings;
        for (const Branch& branch : all)
            if (branch.from != kBody && branch.to != kBody && branch.from != branch.to)
                couplings.push_back({branch.from, branch.to});
        return couplings;
    }

    void require_branch(const Branch& branch) const {
        const auto is_node = [&](int node) { return node == kBody || (node >= 0 && node < node_count); };
        if (!is_node(branch.from) || !is_node(branch.to))
            throw std::invalid_argument("a branch joins a node the network does not have");
        if (branch.conducts) require_valid(branch.law);
    }

    /// Which branches need Newton, which coupling each branch is, and which branches meet at each node.
    void sort_branches() {
        int next_coupling = 0;
        at_node.resize(at(node_count));
        for (int i = 0; i < static_cast<int>(branches.size()); ++i) {
            const Branch& branch = branches[at(i)];
            const bool couples = branch.from != kBody && branch.to != kBody && branch.from != branch.to;
            coupling_of_branch.push_back(couples ? next_coupling++ : -1);
            if (branch.from != branch.to)
                for (const int node : {branch.from, branch.to})
                    if (node != kBody) at_node[at(node)].push_back(i);
        }
        find_nonlinear();
    }

    void find_nonlinear() {
        nonlinear.clear();
        for (int i = 0; i < static_cast<int>(branches.size()); ++i)
            if (branches[at(i)].conducts && branches[at(i)].from != branches[at(i)].to &&
                !is_linear(branches[at(i)].law))
                nonlinear.push_back(i);
        is_nonlinear_known = true;
    }

    /// The branches as they connect at the present voltages: what blocks counts as open.
    std::vector<Branch> connecting_branches() const {
        std::vector<Branch> connecting = branches;
        for (Branch& branch : connecting) {
            if (!branch.conducts || is_linear(branch.law)) continue;
            const double across_v = volts_across(branch);
            const Characteristic there = characteristic(branch.law, across_v);
            if (std::abs(there.current_a) <= kBlockingA && there.slope_s < kLeakageSiemens)
                branch.conducts = false;
        }
        return connecting;
    }

    double volts_across(const Branch& branch) const {
        return (branch.from == kBody ? 0.0 : volts[at(branch.from)]) -
               (branch.to == kBody ? 0.0 : volts[at(branch.to)]);
    }

    /// A branch as conductance and the current it takes at no voltage, by its tangent.
    Characteristic tangent(int index) const {
        const Branch& branch = branches[at(index)];
        if (!branch.conducts) return {0, 0};
        const double here_v = tangent_v[at(index)];
        const Characteristic there = characteristic(branch.law, here_v);
        return {there.current_a - there.slope_s * here_v, there.slope_s};
    }

    void stamp_node(int node) {
        double to_body = kLeakageSiemens;
        double injected = 0;
        for (const int index : at_node[at(node)]) {
            const Branch& branch = branches[at(index)];
            const Characteristic line = lines[at(index)];
            if (coupling_of_branch[at(index)] < 0) to_body += line.slope_s;
            injected += branch.from == node ? -line.current_a : line.current_a;
        }
        elimination.set_to_body(node, to_body);
        elimination.set_injection(node, injected);
    }

    void stamp_branch(int index) {
        const Branch& branch = branches[at(index)];
        if (branch.from == branch.to) return;
        lines[at(index)] = tangent(index);
        if (const int coupling = coupling_of_branch[at(index)]; coupling >= 0)
            elimination.set_coupling(coupling, lines[at(index)].slope_s);
        for (const int node : {branch.from, branch.to})
            if (node != kBody) unstamped.push_back(node);
    }

    void stamp_changes() {
        for (const int index : changed) stamp_branch(index);
        changed.clear();
        std::ranges::sort(unstamped);
        unstamped.erase(std::ranges::unique(unstamped).begin(), unstamped.end());
        for (const int node : unstamped) stamp_node(node);
        unstamped.clear();
    }

    void stamp_all() {
        lines.assign(branches.size(), {0, 0});
        changed.clear();
        for (int i = 0; i < static_cast<int>(branches.size()); ++i) changed.push_back(i);
        for (int node = 0; node < node_count; ++node) unstamped.push_back(node);
        stamp_changes();
        is_stamped = true;
    }

    /// Solves the linearised network for `volts`.
    void solve_linearised() {
        if (!is_stamped)
            stamp_all();
        else
            stamp_changes();
        elimination.update();
        elimination.potentials(volts);
        centre_islands();
    }

    /// An island without a way to the body hangs on its leakage, which is alike at each node, so its mean is
    /// 0. Its own sources would leave that to rounding: currents of a thousand amperes against leakage of
    /// nanosiemens.
    void centre_islands() {
        for (const std::vector<int>& island : islands()) {
            double mean_v = 0;
            for (const int node : island) mean_v += volts[at(node)] / static_cast<double>(island.size());
            for (const int node : island) volts[at(node)] -= mean_v;
        }
    }

    const std::vector<std::vector<int>>& islands() {
        if (!known_islands) known_islands = floating_islands(node_count, branches);
        return *known_islands;
    }

    void move_tangent(int index, double to_v) {
        if (tangent_v[at(index)] == to_v) return;
        tangent_v[at(index)] = to_v;
        changed.push_back(index);
    }

    /// Newton with limited junctions: few steps where it works, which is nearly always.
    std::optional<int> quick_search() {
        for (int step = 1; step <= kQuickSteps; ++step) {
            solve_linearised();
            bool moved = false;
            for (const int index : nonlinear) {
                const Branch& branch = branches[at(index)];
                const double present_v = tangent_v[at(index)];
                double next_v = volts_across(branch);
                if (const auto* junction = std::get_if<model::Junction>(&branch.law))
                    next_v = limited_voltage(*junction, next_v, present_v);
                moved = moved || std::abs(next_v - present_v) > kSettledV;
                move_tangent(index, next_v);
            }
            if (!moved) return step;
        }
        return std::nullopt;
    }

    /// Newton with an exact line search. The network's co-content (the integral of all currents over voltage)
    /// is convex and its derivative along a step is monotone, so each step finds the least co-content on its
    /// line and the search converges from anywhere.
    std::optional<int> safe_search() {
        for (const int index : nonlinear) move_tangent(index, 0);
        std::vector<double> present(at(node_count), 0);
        for (int step = 1; step <= kSafeSteps; ++step) {
            solve_linearised();
            // So near, co-content differs by less than rounding, and plain Newton closes the rest.
            if (farthest(present) <= kPolishV) {
                const auto polish = quick_search();
                return polish ? std::optional(step + *polish) : std::nullopt;
            }
            const double part = line_minimum(present);
            for (int node = 0; node < node_count; ++node)
                present[at(node)] += part * (volts[at(node)] - present[at(node)]);
            volts = present;
            for (const int index : nonlinear) move_tangent(index, volts_across(branches[at(index)]));
        }
        return std::nullopt;
    }

    double farthest(const std::vector<double>& present) const {
        double farthest_v = 0;
        for (int node = 0; node < node_count; ++node)
            farthest_v = std::max(farthest_v, std::abs(volts[at(node)] - present[at(node)]));
        return farthest_v;
    }

    /// How far along from `present` to `volts` the co-content is least: 1 for the whole step.
    double line_minimum(const std::vector<double>& present) const {
        const auto slope_at = [&](double part) { return co_content_slope(present, part); };
        if (slope_at(1) <= 0) return 1;
        double low = 0;
        double high = 1;
        for (int halving = 0; halving < 60; ++halving) {
            const double middle = (low + high) / 2;
            (slope_at(middle) > 0 ? high : low) = middle;
        }
        return low;
    }

    double co_content_slope(const std::vector<double>& present, double part) const {
        double slope = 0;
        const auto difference = [&](const std::vector<double>& of, const Branch& branch) {
            return (branch.from == kBody ? 0.0 : of[at(branch.from)]) -
                   (branch.to == kBody ? 0.0 : of[at(branch.to)]);
        };
        for (const Branch& branch : branches) {
            if (!branch.conducts) continue;
            const double from_v = difference(present, branch);
            const double move_v = difference(volts, branch) - from_v;
            if (move_v != 0) slope += characteristic(branch.law, from_v + part * move_v).current_a * move_v;
        }
        for (int node = 0; node < node_count; ++node) {
            const double move_v = volts[at(node)] - present[at(node)];
            slope += kLeakageSiemens * (present[at(node)] + part * move_v) * move_v;
        }
        return slope;
    }

    Solution read_out(int iterations) const {
        Solution solution;
        solution.potential_v = volts;
        solution.iterations = iterations;
        double mismatch_w = 0;
        for (const Branch& branch : branches) {
            const bool carries = branch.conducts && branch.from != branch.to;
            const double across_v = volts_across(branch);
            solution.current_a.push_back(carries ? characteristic(branch.law, across_v).current_a : 0.0);
            mismatch_w += across_v * solution.current_a.back();
        }
        for (const double potential_v : volts) mismatch_w += kLeakageSiemens * potential_v * potential_v;
        solution.energy_mismatch_w = std::abs(mismatch_w);
        return solution;
    }

    /// Checks Kirchhoff at every node; the worst goes into the solution, a violation is handed back.
    std::optional<NoSolution> violation(Solution& solution) const {
        std::optional<NoSolution> worst;
        double worst_excess = 1;
        for (int node = 0; node < node_count; ++node) {
            double sum_a = kLeakageSiemens * volts[at(node)];
            double largest_a = 0;
            for (const int index : at_node[at(node)]) {
                const double current_a = solution.current_a[at(index)];
                sum_a += branches[at(index)].from == node ? current_a : -current_a;
                largest_a = std::max(largest_a, std::abs(current_a));
            }
            solution.worst_residual_a = std::max(solution.worst_residual_a, std::abs(sum_a));
            const double excess = std::abs(sum_a) / (kResidualA + kResidualShare * largest_a);
            if (!(excess <= worst_excess)) {
                worst_excess = excess;
                worst = NoSolution{node, std::abs(sum_a), "currents do not add up to zero"};
            }
        }
        return worst;
    }

    int node_count;
    std::vector<Branch> branches;
    Elimination elimination;
    std::vector<double> volts;
    std::vector<double> tangent_v;  // per branch: where its tangent is taken
    std::vector<Characteristic> lines;
    std::vector<int> coupling_of_branch;
    std::vector<std::vector<int>> at_node;
    std::vector<int> nonlinear;
    std::vector<int> changed;
    std::vector<int> unstamped;
    std::optional<std::vector<std::vector<int>>> known_islands;
    bool is_stamped = false;
    bool is_nonlinear_known = false;
};

Solver::Solver(int node_count, std::span<const Branch> branches)
    : state_(std::make_unique<State>(node_count, branches)) {}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

void Solver::set_law(int branch, const model::Law& law) {
    Branch& present = state_->branches[at(branch)];
    present.law = law;
    if (present.conducts) require_valid(law);
    state_->tangent_v[at(branch)] = 0;
    state_->changed.push_back(branch);
    state_->is_nonlinear_known = false;
}

void Solver::set_conducts(int branch, bool conducts) {
    Branch& present = state_->branches[at(branch)];
    if (present.conducts == conducts) return;
    if (conducts) require_valid(present.law);
    present.conducts = conducts;
    state_->changed.push_back(branch);
    state_->known_islands.reset();
    state_->is_nonlinear_known = false;
}

tl::expected<Solution, NoSolution> Solver::solve() {
    State& state = *state_;
    if (!state.is_nonlinear_known) state.find_nonlinear();
    std::optional<int> iterations;
    if (state.nonlinear.empty()) {
        state.solve_linearised();
        iterations = 1;
    } else {
        iterations = state.quick_search();
        if (!iterations) iterations = state.safe_search();
    }
    Solution solution = state.read_out(iterations.value_or(kSafeSteps));
    if (auto failure = state.violation(solution)) return tl::unexpected(*failure);
    return solution;
}

std::vector<int> Solver::floating_nodes() const {
    std::vector<int> nodes;
    const std::vector<Branch> connecting = state_->connecting_branches();
    for (const std::vector<int>& island : floating_islands(state_->node_count, connecting))
        nodes.insert(nodes.end(), island.begin(), island.end());
    std::ranges::sort(nodes);
    return nodes;
}

}  // namespace halfsplit::network
