#pragma once

#include <span>
#include <vector>

#include "engine/network/nodal/assembly.h"

namespace halfsplit::network {

/// How well Kirchhoff's current law and the conservation of energy hold.
struct Balance {
    double worst_residual_a = 0;   ///< largest sum of currents left over at a node, the leakage counted
    int worst_column = -1;         ///< where a residual exceeds what is allowed, by most; -1 if nowhere
    double excess_residual_a = 0;  ///< the residual there
    double energy_mismatch_w = 0;
    double allowed_mismatch_w = 0;

    bool holds() const { return worst_column < 0 && energy_mismatch_w <= allowed_mismatch_w; }
};

/// Allowed at a node: kResidualA + kResidualShare of the largest current of a branch there. Branches so
/// conductive that the last bit of the potentials alone makes more than that (above 1e5 S at 12 V) are
/// allowed four such bits. Allowed energy mismatch: what these residuals explain, plus 1e-12 of the power
/// turned over.
class BalanceCheck {
  public:
    /// Computes the current of each branch, from -> to, on its straight line at the potentials last solved
    /// for, and checks them.
    Balance operator()(const Assembly& assembly, std::span<double> current);

  private:
    struct Power {
        double balance_w = 0;
        double turned_over_w = 0;
    };
    struct Nodes {
        double squares_v2 = 0;
        double potentials_v = 0;
        double worst_a = 0;
    };
    Nodes add_leakage(std::span<const double> potential);
    Power add_branches(const Assembly& assembly, std::span<double> current);
    void look_closer(const Assembly& assembly, std::span<const double> current, Balance& balance) const;

    std::vector<double> sum_a_;  ///< per column; kept between checks to spare the allocation
};

}  // namespace halfsplit::network
