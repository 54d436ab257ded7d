#include "engine/network/characteristic.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace halfsplit::network {

namespace {

using model::Cell;
using model::Filament;
using model::Junction;
using model::RegulatedSource;
using model::Resistance;
using model::RunningMotor;
using model::Source;

Characteristic at_voltage(const Resistance& law, double v) {
    return {v / law.ohm, 1 / law.ohm};
}

Characteristic at_voltage(const Source& law, double v) {
    return {(v - law.emf_v) / law.ohm, 1 / law.ohm};
}

Characteristic at_voltage(const Cell& law, double v) {
    const double ohm = v < law.emf_v ? law.ohm : law.charge_ohm;
    return {(v - law.emf_v) / ohm, 1 / ohm};
}

Characteristic at_voltage(const RegulatedSource& law, double v) {
    const double wanted_a = (law.emf_v - v) / law.ohm;
    if (wanted_a <= 0) return {0, 0};
    if (wanted_a >= law.max_a) return {-law.max_a, 0};
    return {-wanted_a, 1 / law.ohm};
}

/// With s = (v / rated)^2: i = v G ((d + 1) / (d + s))^n, di/dv = G ((d + 1) / (d + s))^n (1 - 2 n s / (d +
/// s)), n = 0.225.
Characteristic at_voltage(const Filament& law, double v) {
    constexpr double kHalfExponent = 0.225;
    const double dark = std::pow(law.cold_ratio, 1 / kHalfExponent);
    const double rated_s = law.rated_w / (law.rated_v * law.rated_v);
    const double s = (v / law.rated_v) * (v / law.rated_v);
    const double conductance_s = rated_s * std::pow((dark + 1) / (dark + s), kHalfExponent);
    return {v * conductance_s, conductance_s * (1 - 2 * kHalfExponent * s / (dark + s))};
}

Characteristic at_voltage(const Junction& law, double v) {
    const double tangent_v = law.slope_v * std::log(kJunctionTangentA / law.saturation_a);
    const double exponential_a = law.saturation_a * std::exp(std::min(v, tangent_v) / law.slope_v);
    const double slope_s = exponential_a / law.slope_v;
    return {exponential_a - law.saturation_a + slope_s * std::max(0.0, v - tangent_v), slope_s};
}

Characteristic at_voltage(const RunningMotor& law, double v) {
    const double breakaway_v = law.breakaway_a * law.ohm;
    if (std::abs(v) <= breakaway_v) return {v / law.ohm, 1 / law.ohm};
    const double slope_s = (law.load_a - law.breakaway_a) / (law.load_v - breakaway_v);
    return {std::copysign(law.breakaway_a + (std::abs(v) - breakaway_v) * slope_s, v), slope_s};
}

bool valid(const Resistance& law) {
    return law.ohm > 0;
}
bool valid(const Source& law) {
    return law.ohm > 0 && std::isfinite(law.emf_v);
}
bool valid(const Cell& law) {
    return law.ohm > 0 && law.charge_ohm > 0 && std::isfinite(law.emf_v);
}
bool valid(const RegulatedSource& law) {
    return law.ohm > 0 && law.max_a > 0 && std::isfinite(law.emf_v);
}
bool valid(const Filament& law) {
    return law.rated_v > 0 && law.rated_w > 0 && law.cold_ratio > 0 && law.cold_ratio <= 1;
}
bool valid(const Junction& law) {
    return law.saturation_a > 0 && law.slope_v > 0;
}
bool valid(const RunningMotor& law) {
    return law.ohm > 0 && law.breakaway_a > 0 && law.breakaway_a <= law.load_a &&
           law.load_a * law.ohm <= law.load_v && law.breakaway_a * law.ohm < law.load_v;
}

}  // namespace

Characteristic characteristic(const model::Law& law, double voltage_v) {
    return std::visit([&](const auto& each) { return at_voltage(each, voltage_v); }, law);
}

bool is_linear(const model::Law& law) {
    return std::holds_alternative<Resistance>(law) || std::holds_alternative<Source>(law);
}

void require_valid(const model::Law& law) {
    if (!std::visit([](const auto& each) { return valid(each); }, law))
        throw std::invalid_argument("a branch's law is outside its ranges (engine/model/law.h)");
}

}  // namespace halfsplit::network
