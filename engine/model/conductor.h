#pragma once

namespace halfsplit::model {

/// What a stranded conductor's lay and tolerance add to copper's own rho length / area (from memory; it keeps
/// every standard size below the maximum of IEC 60228 class 5, which is 11 to 16 % above rho / area).
inline constexpr double kStrandingFactor = 1.05;

/// Resistance of a vehicle cable's copper at a temperature, in ohm. area_mm2 > 0, length_m >= 0.
double conductor_ohm(double area_mm2, double length_m, double temperature_degc);

}  // namespace halfsplit::model
