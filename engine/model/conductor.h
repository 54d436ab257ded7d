#pragma once

namespace halfsplit::model {

/// Resistance of a stranded copper wire: rho / A, 5 % more for stranding, and linear in temperature. Always
/// above the ideal rho / A at the same temperature and, at 20 degC, below the maximum of IEC 60228 class 5.
/// `area_mm2` > 0, `length_m` >= 0.
double conductor_ohm(double area_mm2, double length_m, double temperature_degc);

/// How much a copper resistance known at 20 degC changes: 1 + alpha (t - 20 degC), never below a hundredth.
double copper_factor(double temperature_degc);

}  // namespace halfsplit::model
