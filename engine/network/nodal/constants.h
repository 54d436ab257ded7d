#pragma once

#include <limits>

namespace halfsplit::network {

/// Leakage from every node to the body, in siemens (1 gigohm). Dirt and damp insulation leak about this much,
/// a 10 Mohm meter loads a point a hundred times more, and at 12 V it takes 12 nA, so no reading shows it. It
/// gives every node, also one behind an open contact or a blocking diode, one definite potential, and
/// Newton's method a matrix that is positive definite. At 1e-12 S and below Newton's method was seen to stall
/// on islands behind blocking diodes.
inline constexpr double kLeakageSiemens = 1e-9;

/// Newton's method has converged when another step would move no potential by more than this, in volts: a
/// millionth of the last digit of a workshop multimeter (1 mV).
inline constexpr double kPotentialToleranceV = 1e-9;

/// Kirchhoff's current law may be violated at a node by this, in amperes …
inline constexpr double kResidualA = 1e-9;
/// … plus this share of the largest current of a branch there.
inline constexpr double kResidualShare = 1e-9;

/// A diode or regulated source that passes no more than this, in amperes, whatever the voltage, holds no
/// point up: a 10 Mohm meter would pull it down by a millivolt.
inline constexpr double kBlockingA = 1e-10;

/// Above this current the exponential of a junction goes on as its tangent, in amperes. No vehicle circuit
/// gets there (a battery's short circuit gives some 3 kA), but a trial step may, and the exponential would
/// overflow.
inline constexpr double kJunctionTangentA = 1e6;

/// What rounding may do to a number that a few sums and products made, as a share of the largest of them.
inline constexpr double kRounding = 4 * std::numeric_limits<double>::epsilon();

}  // namespace halfsplit::network
