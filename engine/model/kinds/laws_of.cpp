#include "engine/model/kinds/laws_of.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace halfsplit::model::kinds {

constexpr double kMilli = 1000;
// Iron losses and capacitance of the winding, as a multiple of the coil's resistance: a relay without
// suppression kicks with several hundred volts; from memory.
constexpr double kCoilLosses = 60;

double ohm_of_rating(double rated_v, double rated_w) {
    return rated_v * rated_v / rated_w;
}

double blade_fuse_ohm(double rating_a) {
    return 0.129 * std::pow(rating_a, -1.23);
}

double thermal_voltage_v(double temperature_degc) {
    return kBoltzmannJPerK * (temperature_degc + kZeroCelsiusK) / kElementaryChargeC;
}

Junction junction_through(double forward_v, double at_a, double slope_v) {
    return {.saturation_a = at_a / std::expm1(forward_v / slope_v), .slope_v = slope_v};
}

double ntc_ohm(double ohm_25, double b_k, double temperature_degc) {
    const double kelvin =
        std::clamp(temperature_degc, kThermistorColdestDegc, kThermistorHottestDegc) + kZeroCelsiusK;
    return ohm_25 * std::exp(b_k * (1 / kelvin - 1 / (kThermistorReferenceDegc + kZeroCelsiusK)));
}

double ptc_ohm(double ohm_25, double alpha_percent_per_k, double temperature_degc) {
    const double change = alpha_percent_per_k / 100 * (temperature_degc - kThermistorReferenceDegc);
    return ohm_25 * std::max(0.1, 1 + change);
}

double ohm_of_current(double nominal_v, double current_ma) {
    return nominal_v / (current_ma / 1000);
}

Inductance coil(double millihenry, double ohm) {
    return {.henry = millihenry / kMilli, .losses_ohm = kCoilLosses * ohm};
}

Warming copper_winding(double rise_k, double watt, double tau_s) {
    return {.kelvin_per_watt = rise_k / watt, .tau_s = tau_s, .curve = MetalCurve{kCopperTemperaturePerK}};
}

std::vector<Element> armature(const Armature& of, const std::vector<int>& turning,
                              const std::vector<int>& blocked) {
    return {{.name = "armature",
             .from = of.from,
             .to = of.to,
             .law = of.law,
             .conducts_in = turning,
             .store = Rotor{of.spin_up_s / of.law.ohm},
             .change = of.warming},
            {.name = "armature",
             .from = of.from,
             .to = of.to,
             .law = Resistance{of.law.ohm},
             .conducts_in = blocked,
             .change = of.warming}};
}

}  // namespace halfsplit::model::kinds
