#include "engine/simulation/step_length.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::simulation {

namespace {

constexpr double kSafety = 0.9;

/// Of the step, with which the error of a step that was too long goes. Measured on body networks with
/// contacts that open and close: two steps are refused for each, with the third power six.
constexpr double kPowerOfLong = 1.25;

}  // namespace

double growth(double error) {
    constexpr double kLeast = 0.2;
    constexpr double kMost = 5;
    return error > 0 ? std::clamp(kSafety / std::cbrt(error), kLeast, kMost) : kMost;
}

double shrinkage(double error) {
    constexpr double kLeast = 1e-4;
    constexpr double kMost = 0.9;
    return std::clamp(kSafety * std::pow(error, -1 / kPowerOfLong), kLeast, kMost);
}

}  // namespace halfsplit::simulation
