#pragma once

#include <vector>

#include "engine/model/element.h"

namespace halfsplit::model::kinds {

/// Resistance of something rated in watts at a voltage: V^2 / P. Both > 0.
double ohm_of_rating(double rated_v, double rated_w);

/// A blade fuse's cold resistance by its rating: 0.129 rating^-1.23 ohm, a fit to one maker's series from 5
/// to 30 A (from memory). `rating_a` > 0.
double blade_fuse_ohm(double rating_a);

/// The thermal voltage kT/q.
double thermal_voltage_v(double temperature_degc);

/// The junction that drops `forward_v` at `at_a`: Shockley's equation solved for the saturation current.
/// All > 0, forward_v / slope_v below 700 (else e^x overflows).
Junction junction_through(double forward_v, double at_a, double slope_v);

/// NTC thermistor: R25 exp(B (1/T - 1/298.15 K)), the B-parameter equation of every data sheet. The
/// temperature is held between -100 and 400 degC.
double ntc_ohm(double ohm_25, double b_k, double temperature_degc);

/// PTC thermistor of the linear kind: R25 (1 + alpha (t - 25 degC)), never below a tenth of R25.
double ptc_ohm(double ohm_25, double alpha_percent_per_k, double temperature_degc);

/// What draws `current_ma` at `nominal_v`. Both > 0.
double ohm_of_current(double nominal_v, double current_ma);

/// A relay's or solenoid's coil, whose kick its losses bound to some sixty times the voltage that drove its
/// current.
Inductance coil(double millihenry, double ohm);

/// A copper winding that in the long run would get `rise_k` warmer by `watt`, with the time constant.
Warming copper_winding(double rise_k, double watt, double tau_s);

/// The winding of a motor that turns by `law` in the conditions `turning`, in `spin_up_s`, and in those of
/// `blocked` is its resistance alone.
struct Armature {
    Terminal from = 0;
    Terminal to = 0;
    RunningMotor law;
    double spin_up_s = 0;
    Warming warming;
};
std::vector<Element> armature(const Armature& of, const std::vector<int>& turning,
                              const std::vector<int>& blocked);

}  // namespace halfsplit::model::kinds
