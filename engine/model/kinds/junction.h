#pragma once

#include "engine/model/law.h"

namespace halfsplit::model {

/// A junction that drops forward_v at at_a, its slope given: I = Is (exp(V / slope) - 1) (Shockley), so
/// Is = at_a / (exp(forward_v / slope_v) - 1).
Junction junction_through(double forward_v, double at_a, double slope_v);

/// A silicon rectifier's slope: emission coefficient about 1.9 at 25.9 mV (from memory).
inline constexpr double kSiliconSlopeV = 0.05;

inline Junction silicon_junction(double forward_v, double at_a) {
    return junction_through(forward_v, at_a, kSiliconSlopeV);
}

}  // namespace halfsplit::model
