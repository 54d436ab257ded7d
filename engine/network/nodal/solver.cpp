#include "engine/network/nodal/solver.h"

#include <algorithm>
#include <cstddef>
#include <stdexcept>

#include "engine/base/index.h"
#include "engine/network/nodal/assembly.h"
#include "engine/network/nodal/balance.h"
#include "engine/network/nodal/characteristic.h"
#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/islands.h"
#include "engine/network/nodal/newton.h"

namespace halfsplit::network {

namespace {

std::vector<Branch> checked(std::span<const Branch> branches) {
    for (const Branch& branch : branches)
        if (branch.from != branch.to) require_valid(branch.law);
    return {branches.begin(), branches.end()};
}

}  // namespace

struct Solver::State {
    State(int nodes, std::span<const Branch> given, double slack)
        : node_count(nodes),
          branches(checked(given)),
          assembly(nodes, branches),
          newton(branches, assembly, slack) {}

    int node_of_column(int column) const {
        for (int node = 0; node < node_count; ++node)
            if (assembly.column(node) == column) return node;
        return kBody;
    }

    double potential(int node) const {
        return node == kBody ? 0 : assembly.potential()[at(assembly.column(node))];
    }

    /// The branches as they connect at the present potentials: what blocks counts as open.
    std::vector<Branch> connecting() const {
        std::vector<Branch> result = branches;
        for (Branch& branch : result) {
            if (!branch.conducts || is_linear(branch.law)) continue;
            const OperatingSlope here =
                characteristic(branch.law, potential(branch.from) - potential(branch.to));
            if (std::abs(here.current_a) <= kBlockingA && here.slope_s < kLeakageSiemens)
                branch.conducts = false;
        }
        return result;
    }

    /// To be called before a branch changes.
    void note(int branch) {
        if (remembers) replaced.push_back({branch, branches[at(branch)].law, branches[at(branch)].conducts});
    }

    NoSolution failure(const Balance& balance, bool converged) const;
    void fill(Solution& solution, const Balance& balance) const;

    int node_count;
    std::vector<Branch> branches;
    Assembly assembly;
    Newton newton;
    BalanceCheck check_balance;

    struct Replaced {
        int branch = 0;
        model::Law law;
        bool conducts = true;
    };
    bool remembers = false;
    std::vector<Replaced> replaced;  ///< since then, in that order
};

NoSolution Solver::State::failure(const Balance& balance, bool converged) const {
    NoSolution failure{node_of_column(balance.worst_column), balance.excess_residual_a, {}};
    if (const int k = newton.most_unsettled(); failure.node == kBody && k >= 0)
        failure.node = std::max(branches[at(k)].from, branches[at(k)].to);
    if (!converged)
        failure.reason =
            "no operating point found in " + std::to_string(newton.iterations()) + " Newton steps";
    else if (balance.worst_column >= 0)
        failure.reason = "the currents at a node do not add up";
    else
        failure.reason =
            "power in and power out differ by " + std::to_string(balance.energy_mismatch_w) + " W";
    return failure;
}

void Solver::State::fill(Solution& solution, const Balance& balance) const {
    solution.potential_v.resize(at(node_count));
    const std::span<const double> potential_v = assembly.potential();
    for (int node = 0; node < node_count; ++node)
        solution.potential_v[at(node)] = potential_v[at(assembly.column(node))];
    solution.worst_residual_a = balance.worst_residual_a;
    solution.energy_mismatch_w = balance.energy_mismatch_w;
    solution.iterations = newton.iterations();
}

Solver::Solver(int node_count, std::span<const Branch> branches, double slack)
    : state_(std::make_unique<State>(node_count, branches, slack)) {}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

void Solver::set_law(int branch, const model::Law& law) {
    Branch& changed = state_->branches.at(at(branch));
    if (changed.law == law) return;
    require_valid(law);
    state_->note(branch);
    changed.law = law;
    state_->newton.refresh(changed, branch);
}

void Solver::set_conducts(int branch, bool conducts) {
    Branch& changed = state_->branches.at(at(branch));
    if (changed.conducts == conducts) return;
    state_->note(branch);
    changed.conducts = conducts;
    state_->newton.refresh(changed, branch);
}

tl::expected<Solution, NoSolution> Solver::solve() {
    Solution solution;
    if (auto solved = solve_into(solution); !solved) return tl::make_unexpected(std::move(solved.error()));
    return solution;
}

tl::expected<void, NoSolution> Solver::solve_into(Solution& solution) {
    const bool converged = state_->newton.run();
    solution.current_a.resize(state_->branches.size());
    const Balance balance = state_->check_balance(state_->assembly, solution.current_a);
    if (!converged || !balance.holds()) return tl::make_unexpected(state_->failure(balance, converged));
    state_->fill(solution, balance);
    return {};
}

void Solver::resistances(std::span<const int> branches, std::span<double> ohm) const {
    state_->assembly.resistances(branches, ohm);
}

void Solver::spread(int branch, std::vector<double>& potential_v_per_a) const {
    std::vector<double> by_column(at(state_->node_count) + 1);
    state_->assembly.spread(branch, by_column);
    potential_v_per_a.resize(at(state_->node_count));
    for (int node = 0; node < state_->node_count; ++node)
        potential_v_per_a[at(node)] = by_column[at(state_->assembly.column(node))];
}

std::span<const Tangent> Solver::tangents() const {
    return state_->newton.tangents();
}

bool Solver::set_tangents(std::span<const Tangent> tangents) {
    return state_->newton.set_tangents(tangents);
}

void Solver::remember() {
    state_->newton.remember();
    state_->replaced.clear();
    state_->remembers = true;
}

void Solver::go_back() {
    State& state = *state_;
    if (!state.remembers) throw std::logic_error("nothing was remembered");
    std::for_each(state.replaced.rbegin(), state.replaced.rend(), [&state](const State::Replaced& last) {
        state.branches[at(last.branch)].law = last.law;
        state.branches[at(last.branch)].conducts = last.conducts;
    });
    state.replaced.clear();
    state.newton.go_back();
}

std::vector<int> Solver::floating_nodes() const {
    std::vector<int> floating;
    const std::vector<int> island = islands(state_->node_count, state_->connecting());
    for (int node = 0; node < state_->node_count; ++node)
        if (island[at(node)] != kBody) floating.push_back(node);
    return floating;
}

}  // namespace halfsplit::network
