#include "engine/network/nodal/characteristic.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "engine/network/nodal/constants.h"

namespace halfsplit::network {

namespace {

using model::cold_share;
using model::kFilamentExponent;

/// Cubic near the root: two or three are usual, ten are rarely needed, this many never.
constexpr int kFilamentSteps = 60;
/// After a step this small, relative, the next would be lost in rounding: near the root an error is some five
/// times the third power of the one before.
constexpr double kLastFilamentStep = 3e-6;
/// Up to here the bend of the curve, f f'' / f'^2, may mend a Newton step.
constexpr double kSmallBend = 0.2;

OperatingSlope at_voltage(const model::Resistance& law, double v) {
    return {v / law.ohm, 1 / law.ohm};
}

OperatingSlope at_voltage(const model::Source& law, double v) {
    return {(v - law.emf_v) / law.ohm, 1 / law.ohm};
}

OperatingSlope at_voltage(const model::Cell& law, double v) {
    const double ohm = v <= law.emf_v ? law.ohm : law.charge_ohm;
    return {(v - law.emf_v) / ohm, 1 / ohm};
}

OperatingSlope at_voltage(const model::RegulatedSource& law, double v) {
    const double given_a = (law.emf_v - v) / law.ohm;
    if (given_a < 0) return {0, 0};
    if (given_a >= law.max_a) return {-law.max_a, 0};
    return {-given_a, 1 / law.ohm};
}

OperatingSlope at_voltage(const model::Filament& law, double v) {
    const double rated_ohm = law.rated_v * law.rated_v / law.rated_w;
    const double d = cold_share(law);
    const double square = (v / law.rated_v) * (v / law.rated_v);
    const double conductance = 1 / (rated_ohm * std::pow((d + square) / (d + 1), kFilamentExponent));
    return {v * conductance, conductance * (1 - 2 * kFilamentExponent * square / (d + square))};
}

struct Warmed {
    double resistance_share = 0;
    double balance_slope = 0;  ///< there
};

/// With both sides times r the equation is r^2 - known r + step_share (u(r) - s) = 0 with a convex left side:
/// Newton's method comes down to the root from any point above it without overshooting, and from `known`
/// below it to a point above it, which may be far. Above the root is also that of u at its least, -d. Near
/// the root the bend is made up for (Halley's method).
Warmed warmed(const model::WarmingFilament& law, double v) {
    const double a = law.step_share;
    const double d = law.cold_share;
    const double square = (v / law.filament.rated_v) * (v / law.filament.rated_v);
    const double root = std::sqrt(law.known * law.known + 4 * a * (square + d));
    const double highest = law.known > 0 ? (law.known + root) / 2 : 2 * a * (square + d) / (root - law.known);
    Warmed at{law.known > 0 ? law.known : highest, 0};
    for (int i = 0; i < kFilamentSteps; ++i) {
        const double r = at.resistance_share;
        const FilamentBalance here = filament_balance(d, r);
        const double slope = 2 * r - law.known + a * here.slope;
        const double newton = (r * (r - law.known) + a * (here.square - square)) / slope;
        const double bend = newton * (2 + a * here.slope * (1 / kFilamentExponent - 1) / r) / slope;
        const double step = std::abs(bend) < kSmallBend ? newton / (1 - bend / 2) : newton;
        at = {std::min(r - step, highest), here.slope * (1 - (1 / kFilamentExponent - 1) * step / r)};
        if (std::abs(step) <= kLastFilamentStep * r) break;
    }
    return at;
}

OperatingSlope at_voltage(const model::WarmingFilament& law, double v) {
    const double rated_v = law.filament.rated_v;
    const double rated_ohm = rated_v * rated_v / law.filament.rated_w;
    const auto [r, balance_slope] = warmed(law, v);
    const double conductance = 1 / (rated_ohm * r);
    const double r_over_v =
        2 * law.step_share * v / (rated_v * rated_v) / (2 * r - law.known + law.step_share * balance_slope);
    return {v * conductance, conductance * std::max(0.0, 1 - v / r * r_over_v)};
}

OperatingSlope at_voltage(const model::Junction& law, double v) {
    const double tangent_x = std::log(kJunctionTangentA / law.saturation_a);
    const double x = v / law.slope_v;
    const double exponential = std::exp(std::min(x, tangent_x));
    if (exponential < std::numeric_limits<double>::epsilon() / 4) return {-law.saturation_a, 0};
    const double slope = law.saturation_a * exponential / law.slope_v;
    const double below = law.saturation_a * std::expm1(std::min(x, tangent_x));
    return {x > tangent_x ? below + slope * (v - tangent_x * law.slope_v) : below, slope};
}

OperatingSlope at_voltage(const model::RunningMotor& law, double v) {
    const double magnitude = std::abs(v);
    const double breakaway_v = law.breakaway_a * law.ohm;
    if (magnitude <= breakaway_v) return {v / law.ohm, 1 / law.ohm};
    const double slope = (law.load_a - law.breakaway_a) / (law.load_v - breakaway_v);
    return {std::copysign(law.breakaway_a + slope * (magnitude - breakaway_v), v), slope};
}

double usual(const model::Resistance&) {
    return 0;
}
double usual(const model::Source& law) {
    return law.emf_v;
}
double usual(const model::Cell& law) {
    return law.emf_v;
}
double usual(const model::RegulatedSource& law) {
    return law.emf_v - 0.5 * law.max_a * law.ohm;
}
double usual(const model::Filament& law) {
    return law.rated_v;
}
double usual(const model::WarmingFilament& law) {
    return law.filament.rated_v;
}
double usual(const model::RunningMotor& law) {
    return law.load_v;
}

/// The voltage of least radius of curvature; below it the exponential looks flat, above it steep (Nagel,
/// 1975).
double usual(const model::Junction& law) {
    return law.slope_v * std::log(law.slope_v / (std::numbers::sqrt2 * law.saturation_a));
}

/// Upwards the voltage that carries the current asked for is taken in place of the voltage asked for.
/// Downwards it is the same with the current on the tangent, and 0 V if that is none: a full step would cut
/// the current to no less than 1/e, and a junction cut off from its supply has some twenty times that to go.
double limited(const model::Junction& law, double from_v, double to_v) {
    const double step = (to_v - from_v) / law.slope_v;
    if (step < -0.5 && from_v > 0 && to_v > 0) {
        const double x = from_v / law.slope_v;
        const double share = std::expm1(x) + std::exp(x) * step;
        return share > 0 ? law.slope_v * std::log1p(share) : 0;
    }
    if (to_v <= usual(law) || std::abs(step) <= 2) return to_v;
    if (from_v <= 0) return std::max(usual(law), law.slope_v * std::log(to_v / law.slope_v));
    return from_v + law.slope_v * std::log1p(step);
}

/// Laws that are steepest around 0 V and the same for both polarities: seen from far out on one side,
/// Newton's method overshoots 0 by as much and comes back, again and again. Such a step stops at 0.
bool crosses_zero(double from_v, double to_v) {
    return (from_v < 0) != (to_v < 0);
}

double limited(const model::RunningMotor& law, double from_v, double to_v) {
    return crosses_zero(from_v, to_v) && std::abs(from_v) > law.breakaway_a * law.ohm ? 0 : to_v;
}

/// While cold, below about the square root of d in the law, the filament is all but a plain resistance.
double limited(const model::Filament& law, double from_v, double to_v) {
    if (!crosses_zero(from_v, to_v)) return to_v;
    const double cold_v = law.rated_v * std::sqrt(cold_share(law));
    return std::abs(from_v) > cold_v ? 0 : to_v;
}

/// From a flat side of the law the network seems to hang on the leakage, and asks for far too much. What lies
/// between is tried first: seen from there the answer has the right sign.
double limited(const model::RegulatedSource& law, double from_v, double to_v) {
    const double full_load_v = law.emf_v - law.max_a * law.ohm;
    const bool leaves_full_load = from_v < full_load_v && to_v > full_load_v;
    const bool leaves_idle = from_v > law.emf_v && to_v < law.emf_v;
    return leaves_full_load || leaves_idle ? usual(law) : to_v;
}

template <class AnyOther>
double limited(const AnyOther&, double, double to_v) {
    return to_v;
}

double straight(const model::Cell& law, double at_v, const OperatingSlope&, double) {
    return std::abs(at_v - law.emf_v);
}

double straight(const model::RegulatedSource& law, double at_v, const OperatingSlope&, double) {
    return std::min(std::abs(at_v - law.emf_v), std::abs(at_v - (law.emf_v - law.max_a * law.ohm)));
}

double straight(const model::RunningMotor& law, double at_v, const OperatingSlope&, double) {
    return std::abs(std::abs(at_v) - law.breakaway_a * law.ohm);
}

/// e^x - 1 - x is at most x^2 where x is at most 1/2.
double straight(const model::Junction& law, double at_v, const OperatingSlope& there, double off_a) {
    if (there.slope_s == 0)
        return std::max(0.0, law.slope_v * std::log(std::numeric_limits<double>::epsilon() / 4) - at_v);
    return std::min(0.5 * law.slope_v, std::sqrt(off_a * law.slope_v / there.slope_s));
}

/// With g the conductance at v, d and p the law's numbers, q = (v / rated_v)^2 and c = d / (d + q), the
/// second derivative is -2 p g v / (rated_v^2 (d + q)) (3 - 2 (1 + p) (1 - c)). As far as a twentieth of v,
/// or of what makes q equal to d, d + q is not less than 0.9 of what it was, and g not more than 1.05.
double straight(const model::Filament& law, double at_v, const OperatingSlope& there, double off_a) {
    const double d = cold_share(law);
    const double square = (at_v / law.rated_v) * (at_v / law.rated_v);
    const double furthest_v = 0.05 * std::max(std::abs(at_v), law.rated_v * std::sqrt(d));
    const double conductance = at_v == 0 ? there.slope_s : there.current_a / at_v;
    const double cold = std::min(1.0, d / (0.9 * (d + square)));
    const double bend = 1.05 / 0.9 * 2 * kFilamentExponent * conductance * (std::abs(at_v) + furthest_v) *
                        (3 - 2 * (1 + kFilamentExponent) * (1 - cold)) /
                        (law.rated_v * law.rated_v * (d + square));
    return std::min(furthest_v, std::sqrt(2 * off_a / bend));
}

template <class AnyOther>
double straight(const AnyOther&, double, const OperatingSlope&, double) {
    return 0;
}

bool positive(double value) {
    return std::isfinite(value) && value > 0;
}
bool valid(const model::Resistance& law) {
    return positive(law.ohm);
}
bool valid(const model::Source& law) {
    return std::isfinite(law.emf_v) && positive(law.ohm);
}
bool valid(const model::Cell& law) {
    return std::isfinite(law.emf_v) && positive(law.ohm) && positive(law.charge_ohm);
}
bool valid(const model::RegulatedSource& law) {
    return std::isfinite(law.emf_v) && positive(law.ohm) && positive(law.max_a);
}
bool valid(const model::Filament& law) {
    return positive(law.rated_v) && positive(law.rated_w) && positive(law.cold_ratio) && law.cold_ratio < 1;
}
bool valid(const model::WarmingFilament& law) {
    return valid(law.filament) && positive(law.step_share) && std::isfinite(law.known) &&
           positive(law.cold_share);
}
bool valid(const model::Junction& law) {
    return positive(law.saturation_a) && positive(law.slope_v);
}
bool valid(const model::RunningMotor& law) {
    return positive(law.ohm) && positive(law.breakaway_a) && positive(law.load_v) &&
           law.load_a >= law.breakaway_a && law.load_a <= law.load_v / law.ohm * (1 + 1e-12) &&
           law.breakaway_a * law.ohm < law.load_v;
}

}  // namespace

FilamentBalance filament_balance(double cold_share, double resistance_share) {
    const double above = (cold_share + 1) * std::pow(resistance_share, 1 / kFilamentExponent);
    return {above - cold_share, above / kFilamentExponent / resistance_share};
}

double resistance_share_after(const model::WarmingFilament& law, double voltage_v) {
    return warmed(law, voltage_v).resistance_share;
}

OperatingSlope characteristic(const model::Law& law, double voltage_v) {
    return std::visit([&](const auto& of) { return at_voltage(of, voltage_v); }, law);
}

bool is_linear(const model::Law& law) {
    return std::holds_alternative<model::Resistance>(law) || std::holds_alternative<model::Source>(law);
}

double usual_voltage(const model::Law& law) {
    return std::visit([](const auto& of) { return usual(of); }, law);
}

double limited_voltage(const model::Law& law, double from_v, double to_v) {
    return std::visit([&](const auto& of) { return limited(of, from_v, to_v); }, law);
}

double straight_v(const model::Law& law, double at_v, const OperatingSlope& there, double off_a) {
    return std::visit([&](const auto& of) { return straight(of, at_v, there, off_a); }, law);
}

void require_valid(const model::Law& law) {
    if (!std::visit([](const auto& of) { return valid(of); }, law))
        throw std::invalid_argument("a branch has a law with a value outside its range");
}

}  // namespace halfsplit::network
