#include "tests/support/march.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/simulation/step_length.h"

namespace halfsplit::test {

namespace {

constexpr double kShortestStepS = 1e-6;

template <class Result>
void require(const Result& result) {
    if (!result) throw std::runtime_error("no solution: " + result.error().reason);
}

}  // namespace

simulation::Integrator started(const StoringNetwork& network, double tolerance) {
    simulation::Integrator integrator(network.node_count, network.branches,
                                      simulation::kTolerance * tolerance);
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
        const int branch = static_cast<int>(i);
        if (integrator.number_of(branch) < 0) continue;
        if (std::holds_alternative<model::Rotor>(network.branches[i].store))
            integrator.set_turning(branch, simulation::Turning::forwards);
        integrator.set_value(integrator.number_of(branch), network.stored_at_start[i]);
    }
    require(integrator.look());
    return integrator;
}

double March::try_within_tolerance(double step_s) {
    const double shortest_s = kShortestStepS * std::cbrt(integrator_.tolerance() / simulation::kTolerance);
    for (;;) {
        const auto error = integrator_.try_step(step_s);
        require(error);
        if (*error <= 1 || step_s <= shortest_s) {
            next_step_s_ = step_s * simulation::growth(*error);
            return step_s;
        }
        ++refused_;
        step_s *= simulation::shrinkage(*error);
    }
}

void March::run_until(double time_s) {
    while (now_s_ < time_s) {
        const double wished_s = std::min(next_step_s_, longest_step_s_);
        const bool is_cut = time_s - now_s_ <= wished_s;
        const double made_s = try_within_tolerance(is_cut ? time_s - now_s_ : wished_s);
        const bool arrives = is_cut && made_s == time_s - now_s_;
        if (on_step) on_step(now_s_, made_s);
        integrator_.accept();
        ++steps_;
        if (arrives) next_step_s_ = std::max(next_step_s_, wished_s);
        now_s_ = arrives ? time_s : now_s_ + made_s;
    }
}

void March::toggle(const Toggle& toggle) {
    integrator_.set_conducts(toggle.branch, toggle.conducts);
    require(integrator_.look());
}

void run_with_toggles(March& march, const std::vector<Toggle>& toggles, double until_s) {
    for (const Toggle& toggle : toggles) {
        if (toggle.at_s > until_s) break;
        march.run_until(toggle.at_s);
        march.toggle(toggle);
    }
    march.run_until(until_s);
}

}  // namespace halfsplit::test
