#pragma once

#include <functional>

#include "engine/simulation/integrator.h"
#include "tests/support/storing_network.h"

namespace halfsplit::test {

/// An integrator of a network with everything stored as the network says, rotors turning forwards, looked at.
/// `tolerance` counts in that of a course.
simulation::Integrator started(const StoringNetwork& network, double tolerance = 1);

/// Steps an integrator by its own estimate of the error, as a course does between two events. Throws
/// std::runtime_error where a step has no solution.
class March {
  public:
    explicit March(simulation::Integrator& integrator, double longest_step_s = 10)
        : integrator_(integrator), longest_step_s_(longest_step_s) {}

    /// Called with the beginning and the length of each good step before it is accepted.
    std::function<void(double start_s, double step_s)> on_step;

    /// The last step ends there exactly.
    void run_until(double time_s);
    /// Opens or closes the branch now.
    void toggle(const Toggle& toggle);

    double now_s() const { return now_s_; }
    int steps() const { return steps_; }
    int refused() const { return refused_; }

  private:
    double try_within_tolerance(double step_s);

    simulation::Integrator& integrator_;
    double longest_step_s_;
    double now_s_ = 0;
    double next_step_s_ = 1e-4;
    int steps_ = 0;
    int refused_ = 0;
};

/// Runs through all toggles up to a time.
void run_with_toggles(March& march, const std::vector<Toggle>& toggles, double until_s);

}  // namespace halfsplit::test
