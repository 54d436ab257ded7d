#pragma once

#include <span>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/slow_change.h"
#include "engine/network/nodal/branch.h"
#include "engine/network/nodal/chains.h"
#include "engine/network/nodal/solver.h"
#include "engine/simulation/stage.h"

namespace halfsplit::simulation {

/// A branch with what it stores.
struct StoringBranch {
    network::Branch electrical;  ///< its law is that at rest
    model::Store store;
};

/// A network at one moment: one potential per node, one current per branch.
struct NetworkMoment {
    std::vector<double> potential_v;
    std::vector<double> current_a;
};

inline constexpr double kTolerance = 1e-3;

/// All that decides how an integrator goes on.
struct IntegratorState {
    std::vector<double> x;
    std::vector<double> per_s;
    std::vector<Turning> turning;
    std::vector<network::Tangent> tangents;  ///< of the network in a step
    std::vector<network::Tangent> tangents_at_once;
    NetworkMoment moment;  ///< of what Chains leave of the network
};

/// Carries a network with stores through time by TR-BDF2 (Bank et al., IEEE Trans. Electron Devices 32(10),
/// 1985; error estimate in the form of Hosea & Shampine, Appl. Numer. Math. 20, 1996): the trapezoidal rule
/// up to 2 - sqrt(2) of the step, then backward differences over the three points. Of second order, and
/// strongly damped, so that contacts may open and close at any moment. Both stages have one implicit part,
/// and the network the same conductances in both.
///
/// What else moves with the network but does not act back on it within a step (the heat in a fuse, the way a
/// mechanism has gone) goes along by the same formulas. So does what changes slowly; its laws are those of
/// the middle of the step.
///
/// What is solved is the network with its series connections taken as one (Chains).
///
/// Discontinuities are the caller's: it may change contacts, laws and states between steps, and then look().
class Integrator {
  public:
    /// `tolerance` is the error allowed in a step, as a share of what is stored, or of what counts as little
    /// of it: 1 V, 0.1 A, the whole of a way, a heat or a filament. Everything else is as exact as that
    /// needs.
    Integrator(int node_count, std::span<const StoringBranch> branches, double tolerance = kTolerance);

    /// Heat in what a branch's current flows through: h' = ((i / hold_a)^2 - h) / time_s. Returns its number.
    int add_heat(int branch, double hold_a, double time_s);
    /// The way of what a rotor moves: s' = back-EMF / (full_speed_v travel_s). Returns its number.
    int add_way(int rotor_branch, double full_speed_v, double travel_s);

    /// Branches whose laws change slowly as one, at most one of them conducting at a time. Returns the number
    /// of what has changed (model/slow_change.h).
    int add_change(std::span<const int> branches, const model::SlowChange& change);

    double tolerance() const { return tolerance_; }
    /// What a branch stores (see stage_law); -1 where it stores nothing.
    int number_of(int branch) const { return number_of_branch_[static_cast<std::size_t>(branch)]; }
    double value(int number) const { return x_[static_cast<std::size_t>(number)]; }
    void set_value(int number, double x) { x_[static_cast<std::size_t>(number)] = x; }
    Turning turning(int branch) const;
    void set_turning(int branch, Turning turning);

    void set_conducts(int branch, bool conducts);
    bool conducts(int branch) const { return branches_[static_cast<std::size_t>(branch)].conducts; }
    /// The law at rest, without what has changed slowly.
    void set_law(int branch, const model::Law& at_rest);
    /// The law as it is now.
    const model::Law& law(int branch) const { return branches_[static_cast<std::size_t>(branch)].law; }

    /// Everything stored as it would be at rest with these potentials and currents of the whole network.
    void set_at_rest(const NetworkMoment& moment);
    /// Solves for the moment as it is with everything stored as it stands.
    tl::expected<void, network::NoSolution> look();

    /// Tries a step. Returns its error in tolerances: up to 1 it is good.
    tl::expected<double, network::NoSolution> try_step(double step_s);
    /// The step that was tried has been made.
    void accept();

    // The step that was tried, at a share of it from 0 to 1 (0: the moment it starts from, also where none
    // was tried). Between its three points a parabola is laid.
    double potential_at(int node, double share) const;
    double voltage_at(int branch, double share) const;
    double current_at(int branch, double share) const;
    double value_at(int number, double share) const;

    /// Nothing changes by more than the tolerance within a second, but for what changes slowly.
    bool is_steady() const;
    /// IntegratorState::tangents, which a step that is tried changes.
    std::span<const network::Tangent> tangents() const { return solver_.tangents(); }

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

    /// A branch that changes slowly, one entry each; those that change as one have one number.
    struct Change {
        int branch = 0;
        model::SlowChange change;
        model::Law at_rest;
        int number = 0;
    };

    int add_number(double little);
    void change_laws(double ahead_s);
    void put_law(int branch);
    tl::expected<void, network::NoSolution> solve_stage(network::Solver& solver, double beta_s,
                                                        std::span<const double> known, NetworkMoment& moment,
                                                        std::vector<double>& x, std::vector<double>& per_s);
    void put_stage_laws(network::Solver& solver, double beta_s, std::span<const double> known);
    double told(std::size_t number, double known) const;
    double voltage(int branch, const NetworkMoment& moment) const;
    double current(int branch, const NetworkMoment& moment) const;
    double error_in_tolerances(double step_s) const;
    double scale_of(std::size_t number) const;

    double tolerance_;
    std::vector<network::Branch> branches_;
    std::vector<model::Store> stores_;
    std::vector<int> storing_;           ///< branches, in the order of their numbers
    std::vector<int> number_of_branch_;  ///< -1 where it stores nothing
    std::vector<Heat> heats_;
    std::vector<Way> ways_;
    std::vector<Change> changes_;
    std::vector<double> little_;          ///< by number; what counts as little of it
    std::vector<double> most_in_a_step_;  ///< by number; 0 for all but slow changes
    std::vector<Turning> turning_;        ///< by number; of a rotor
    network::Chains chains_;
    network::Solver solver_;   ///< the network in the stages of a step
    network::Solver at_once_;  ///< and as it is with everything stored as it stands; keeps its own factors
    network::Solution solution_;

    std::vector<double> x_, per_s_;
    std::vector<double> middle_x_, middle_per_s_;
    std::vector<double> end_x_, end_per_s_;
    std::vector<double> known_;
    NetworkMoment start_, middle_, end_;  ///< of what the chains leave
};

}  // namespace halfsplit::simulation
