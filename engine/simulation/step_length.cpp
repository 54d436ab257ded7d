#include "engine/simulation/step_length.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::simulation {

namespace {

constexpr double kSafety = 0.9;

/// From here on an error counts as far beyond the tolerance.
constexpr double kFarBeyond = 10;
/// Between an error in proportion to the step and one with its third power; measured, contacts that open in
/// body networks need two tries by it, six by the third power.
constexpr double kPowerFarBeyond = 1.5;

}  // namespace

double growth(double error) {
    constexpr double kLeast = 0.2;
    constexpr double kMost = 5;
    return error > 0 ? std::clamp(kSafety / std::cbrt(error), kLeast, kMost) : kMost;
}

double shrinkage(double error) {
    constexpr double kLeast = 1e-4;
    constexpr double kMost = 0.9;
    const double power = error > kFarBeyond ? kPowerFarBeyond : 3;
    return std::clamp(kSafety * std::pow(error, -1 / power), kLeast, kMost);
}

}  // namespace halfsplit::simulation
