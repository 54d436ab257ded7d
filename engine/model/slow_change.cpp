#include "engine/model/slow_change.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace halfsplit::model {

namespace {

/// Law changes finer than this are not followed: a share of a resistance, in powers of two; volts of a cell.
constexpr double kFactorStep = 1.0 / 4096;
constexpr double kCellStepV = 1.0 / 16384;
/// A metal that has cooled far below where its line was taken keeps some resistance.
constexpr double kLeastFactor = 0.05;
/// How much steeper the voltage of an empty battery falls than that of a charged one; from memory.
constexpr double kBreakdown = 30;

double factor_of(const MetalCurve& curve, double rise_k) {
    return std::max(kLeastFactor, 1 + curve.per_kelvin * rise_k);
}
double factor_of(const NtcCurve& curve, double rise_k) {
    const double kelvin = std::clamp(curve.at_k + rise_k, kThermistorColdestDegc + kZeroCelsiusK,
                                     kThermistorHottestDegc + kZeroCelsiusK);
    return std::exp(curve.b_k * (1 / kelvin - 1 / curve.at_k));
}

/// The same motor with another resistance in its winding: what it moves, and at which back-EMF, stays.
Law with_resistance(const Law& law, double factor) {
    if (const auto* resistance = std::get_if<Resistance>(&law)) return Resistance{resistance->ohm * factor};
    RunningMotor motor = std::get<RunningMotor>(law);
    const double load_emf_v = motor.load_v - motor.ohm * motor.load_a;
    motor.ohm *= factor;
    motor.load_v = load_emf_v + motor.ohm * motor.load_a;
    return motor;
}

double ohm_of(const Law& law) {
    if (const auto* resistance = std::get_if<Resistance>(&law)) return resistance->ohm;
    return std::get<RunningMotor>(law).ohm;
}

/// Above the voltage of an empty battery.
double volts_over_empty(const Charge& charge, double share) {
    return charge.volts_per_share * (share < 0 ? kBreakdown * share : share);
}

Law after(const std::monostate&, const Law& law, double) {
    return law;
}
Law after(const Warming& warming, const Law& law, double rise_k) {
    const double factor =
        std::visit([&](const auto& curve) { return factor_of(curve, rise_k); }, warming.curve);
    const double steps = std::round(std::log2(factor) / kFactorStep);
    return steps == 0 ? law : with_resistance(law, std::exp2(steps * kFactorStep));
}
Law after(const Charge& charge, const Law& law, double change) {
    Cell cell = std::get<Cell>(law);
    const double moved_v = volts_over_empty(charge, charge.share_at_rest + change) -
                           volts_over_empty(charge, charge.share_at_rest);
    cell.emf_v = std::max(0.0, cell.emf_v + kCellStepV * std::round(moved_v / kCellStepV));
    return cell;
}

Pace pace_of(const std::monostate&, const Law&, double, double) {
    return {};
}
Pace pace_of(const Warming& warming, const Law& law, double, double current_a) {
    const double watt = current_a * current_a * ohm_of(law);
    return {warming.kelvin_per_watt * watt / warming.tau_s, 1 / warming.tau_s};
}
Pace pace_of(const Charge& charge, const Law&, double change, double current_a) {
    const bool is_full = charge.share_at_rest + change >= 1;
    return {is_full && current_a > 0 ? 0 : current_a / charge.capacity_as, 0};
}

}  // namespace

Law changed(const Law& at_rest, const SlowChange& change, double x) {
    return std::visit([&](const auto& of) { return after(of, at_rest, x); }, change);
}

Pace pace(const Law& now, const SlowChange& change, double x, double current_a) {
    return std::visit([&](const auto& of) { return pace_of(of, now, x, current_a); }, change);
}

}  // namespace halfsplit::model
