#pragma once

#include "engine/model/law.h"

namespace halfsplit::network {

/// What a law says at a voltage: the current, and how much more of it a volt more would bring (>= 0).
struct Characteristic {
    double current_a = 0;
    double slope_s = 0;
};

/// Defined for every finite voltage. A junction's exponential goes on as its tangent above kJunctionTangentA,
/// far beyond what a body circuit carries, so that no step of a search overflows.
Characteristic characteristic(const model::Law& law, double voltage_v);

inline constexpr double kJunctionTangentA = 1e6;

/// True for laws whose slope is the same everywhere (Resistance, Source).
bool is_linear(const model::Law& law);

/// Throws std::invalid_argument where a law is outside the ranges engine/model/law.h states, or is an ideal
/// short.
void require_valid(const model::Law& law);

}  // namespace halfsplit::network
