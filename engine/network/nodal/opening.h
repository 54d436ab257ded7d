#pragma once

#include <optional>
#include <span>

#include "engine/network/nodal/assembly.h"

namespace halfsplit::network {

/// What a solved network of straight lines does when one of its branches opens, where that branch was nearly
/// all that held one of its sides: how far that side moves hangs on what else holds it, such as a lamp at the
/// far end of a wire or nothing but leakage, which differences of potentials no longer tell.
///
/// Taking a branch away moves potentials as a current i does that is drawn at its one end and given back at
/// the other: v' = v - i z, with z the potentials per ampere the other way. i follows from Kirchhoff's law at
/// the end c that was eliminated first, without the branch:
///   sum of t_a (v'_c - v'_a) = s,   i = (sum of t_a (v_c - v_a) - s) / (sum of t_a (z_c - z_a))
/// over the other legs t of its star, the one to ground among them, with the sources s in them. A difference
/// counts only as much as its leg, so nothing is lost where all legs are weak. Where one is strong and the
/// only one beside that to ground, c is no more than a point of a wire: it is eliminated without the branch,
/// and the same is done with the two columns it had joined, which are as open to each other now.
class Opening {
  public:
    /// Borrows both. `inverse`: see Elimination::inverse_entries; `largest_v`: of all potentials.
    Opening(const Assembly& solved, std::span<const double> inverse, double largest_v);

    /// i, in ampere from the first end to the second, where it is sure to `allowed_a`. Nothing also where the
    /// branch is a source, leads to the body or is not the only way between its ends.
    std::optional<double> current(int branch, double allowed_a) const;

  private:
    struct Side;
    struct Ampere;
    struct Star;

    Star star_of(const Side& side, const Side& other) const;
    bool is_only_way(const Ampere& ampere, int but_through) const;
    std::optional<double> current_at(const Star& star, const Ampere& ampere, double allowed_a) const;
    double inverse(int a, int b) const;

    const Assembly& solved_;
    std::span<const double> inverse_;
    double largest_v_;
    const EliminationPattern& pattern_;
};

}  // namespace halfsplit::network
