#pragma once

#include <span>
#include <vector>

#include "engine/network/nodal/assembly.h"
#include "engine/network/nodal/branch.h"
#include "engine/network/nodal/characteristic.h"

namespace halfsplit::network {

/// Newton's method on the node potentials. Each step replaces every branch by its tangent and solves the
/// network.
///
/// First the quick way: full steps, with junction limiting, each junction minding only its own voltage. It
/// takes a handful of steps on nearly every circuit but has no proof. If it does not settle, the safe way:
/// the laws are monotone, so the co-content of the network (Millar, Phil. Mag. 42, 1951) is strictly convex
/// with the operating point as its minimum, and a step that is cut where the co-content along it is least
/// always makes progress.
class Newton {
  public:
    /// `slack` multiplies what is allowed to be left over.
    Newton(std::span<const Branch> branches, Assembly& assembly, double slack = 1);

    /// The law or the state of a branch is not what it was.
    void refresh(const Branch& branch, int index);

    /// Finds the operating point from where the last run ended. False if it was not found. If it was, the
    /// straight lines in the assembly give the branches' currents: they are the tangents there, or while
    /// something is tried with a slack (see Solver::remember) some with nearly their slopes.
    bool run();
    /// The same by the safe way alone.
    bool run_safely();
    /// See Solver.
    std::span<const Tangent> tangents() const { return ports_; }
    bool set_tangents(std::span<const Tangent> tangents);
    /// Remembers where it stands, with the assembly and with all tangents moved to there, and goes back
    /// there. The branches' laws and states are the caller's to restore.
    void remember();
    void go_back();
    int iterations() const { return iterations_; }
    /// The branch that was still moving most when the last step was judged, -1 if there is none but straight
    /// lines.
    int most_unsettled() const { return most_unsettled_; }

  private:
    struct AlongStep {
        double start_w = 0;
        double rise_w = 0;
    };

    bool settle_quickly();
    bool settle_safely();
    bool relinearise();
    void look_at(const Tangent& port, double asked_v, bool is_straight);
    void weigh(int branch, double off_a, double slope_s, bool is_settled);
    void move();
    bool may_slide(const Tangent& to) const;
    bool is_near(const Tangent& port, const OperatingSlope& here) const;
    double allowed_a(const OperatingSlope& here) const;
    double negligible_v() const;
    double negligible_a(const OperatingSlope& here) const;
    void restart();
    void linearise(Tangent& port, double at_v);
    void put(Tangent& port, double at_v, const OperatingSlope& here);
    void find_straight(Tangent& port) const;
    double voltage(int branch, std::span<const double> potential) const;
    AlongStep linear_part(std::span<const double> from, std::span<const double> to) const;
    double fraction_to_least_co_content(std::span<const double> from, std::span<const double> to) const;

    std::span<const Branch> branches_;
    Assembly& assembly_;
    double slack_;
    std::vector<Tangent> ports_;  ///< the branches whose law is not a straight line
    std::vector<int> port_of_;    ///< per branch, -1 for a straight line
    int unwatched_ = 0;           ///< ports that the assembly does not watch
    int iterations_ = 0;
    int most_unsettled_ = -1;
    bool warm_ = false;
    bool are_lines_others_ = false;  ///< the assembly may have lines with other slopes than the ports'

    /// What relinearise() finds.
    struct Unsettled {
        double negligible_v = 0;
        double step_v = 0;
        double largest_v = -1;
        bool is_settled = true;
        std::vector<Tangent> moved;
        std::vector<Tangent> slid;  ///< the tangent stays, the line is to meet it at another voltage
    };
    Unsettled unsettled_;

    struct Remembered {
        std::vector<Tangent> ports;
        std::vector<int> port_of;
        bool warm = false;
        bool are_lines_others = false;
        int unwatched = 0;
    };
    Remembered remembered_;
    bool remembers_ = false;
    bool are_ports_others_ = false;  ///< than those remembered, or in another order
};

}  // namespace halfsplit::network
