#pragma once

#include <cstdint>
#include <vector>

#include <tl/expected.hpp>

#include "engine/diagnosis/limits/limits.h"

namespace halfsplit::diagnosis {

/// What drawn vehicles read: the check of limits_in_state, which draws nothing.
struct Drawn {
    int draws = 0;
    int elsewhere = 0;            ///< draws in which a part would go to another condition; not counted below
    std::vector<double> covered;  ///< one per observation: the share of draws within its limits
    std::vector<double> deviation_v;  ///< one per observation: the standard deviation of the draws
};

/// Draws every scattering value `draws` times, independently, and solves anew each time, in the conditions
/// the circuit has settled to. The same seed gives the same draws.
tl::expected<Drawn, Diagnostics> draw_vehicles(const model::Circuit& circuit,
                                               const simulation::Settled& settled,
                                               const std::vector<Observation>& observations,
                                               const std::vector<Limits>& limits, int draws,
                                               std::uint64_t seed);

}  // namespace halfsplit::diagnosis
