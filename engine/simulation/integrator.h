#pragma once

#include <span>
#include <vector>

#include <tl/expected.hpp>

#include "engine/network/branch.h"
#include "engine/network/solver.h"
#include "engine/simulation/stage.h"

namespace halfsplit::simulation {

/// A branch with what it stores.
struct StoringBranch {
    network::Branch electrical;  ///< its law is that at rest
    model::Store store;
};

/// The network at one moment: one potential per node, one current per branch.
struct Moment {
    std::vector<double> potential_v;
    std::vector<double> current_a;
};

/// All that decides how an integrator goes on.
struct IntegratorState {
    std::vector<double> x;
    std::vector<double> per_s;
    std::vector<Turning> turning;
    std::vector<double> linearised_at_v;
    Moment moment;
};

/// Carries a network with stores through time by TR-BDF2 (Bank et al., IEEE Trans. Electron Devices 32(10),
/// 1985; error estimate in the form of Hosea & Shampine, Appl. Numer. Math. 20, 1996): the trapezoidal rule
/// up to 2 - sqrt(2) of the step, then backward differences over the three points. Of second order, and
/// strongly damped, so that contacts may open and close at any moment. Both stages have one implicit part,
/// and the network the same conductances in both.
///
/// What else moves with the network but does not act back on it within a step (the heat in a fuse, the way a
/// mechanism has gone) goes along by the same formulas.
///
/// Discontinuities are the caller's: it may change contacts, laws and states between steps, and then look().
class Integrator {
  public:
    Integrator(int node_count, std::span<const StoringBranch> branches);

    /// Heat in what a branch's current flows through: h' = ((i / hold_a)^2 - h) / time_s. Returns its number.
    int add_heat(int branch, double hold_a, double time_s);
    /// The way of what a rotor moves: s' = back-EMF / (full_speed_v travel_s). Returns its number.
    int add_way(int rotor_branch, double full_speed_v, double travel_s);

    /// What a branch stores (see stage_law); -1 where it stores nothing.
    int number_of(int branch) const { return number_of_branch_[static_cast<std::size_t>(branch)]; }
    double value(int number) const { return x_[static_cast<std::size_t>(number)]; }
    void set_value(int number, double x) { x_[static_cast<std::size_t>(number)] = x; }
    Turning turning(int branch) const;
    void set_turning(int branch, Turning turning);

    void set_conducts(int branch, bool conducts);
    bool conducts(int branch) const { return branches_[static_cast<std::size_t>(branch)].conducts; }
    void set_law(int branch, const model::Law& at_rest);
    const model::Law& law(int branch) const { return branches_[static_cast<std::size_t>(branch)].law; }

    /// Everything stored as it would be at rest with these potentials and currents.
    void set_at_rest(const Moment& moment);
    /// The moment as it is with everything stored as it stands.
    tl::expected<void, network::NoSolution> look();
    const Moment& moment() const { return start_; }

    /// Tries a step. Returns its error in tolerances: up to 1 it is good.
    tl::expected<double, network::NoSolution> try_step(double step_s);
    /// The step that was tried has been made.
    void accept();

    // The step that was tried, at a share of it from 0 to 1 (0: moment(), also where none was tried). Between
    // its three points a parabola is laid.
    double potential_at(int node, double share) const;
    double voltage_at(int branch, double share) const;
    double current_at(int branch, double share) const;
    double value_at(int number, double share) const;

    /// Nothing stored changes by more than the tolerance within a second.
    bool is_steady() const;
    /// See network::Solver.
    std::vector<double> linearised_at() const { return solver_.linearised_at(); }

    IntegratorState state() const;
    /// False, and nothing done, where the state is not of this network.
    bool resume(const IntegratorState& state);

  private:
    struct Heat {
        int branch = 0;
        double hold_a = 0;
        double time_s = 0;
        int number = 0;
    };
    struct Way {
        int rotor = 0;
        double per_s_and_v = 0;
        int number = 0;
    };

    int add_number();
    tl::expected<void, network::NoSolution> solve_stage(double beta_s, std::span<const double> known,
                                                        Moment& moment, std::vector<double>& x,
                                                        std::vector<double>& per_s);
    double voltage(int branch, const Moment& moment) const;
    double error_in_tolerances(double step_s) const;
    double scale_of(std::size_t number) const;

    int node_count_ = 0;
    std::vector<network::Branch> branches_;
    std::vector<model::Store> stores_;
    std::vector<int> storing_;           ///< branches, in the order of their numbers
    std::vector<int> number_of_branch_;  ///< -1 where it stores nothing
    std::vector<Heat> heats_;
    std::vector<Way> ways_;
    std::vector<Turning> turning_;  ///< by number; of a rotor
    network::Solver solver_;

    std::vector<double> x_, per_s_;
    std::vector<double> middle_x_, middle_per_s_;
    std::vector<double> end_x_, end_per_s_;
    std::vector<double> known_;
    Moment start_, middle_, end_;
};

}  // namespace halfsplit::simulation
