#pragma once

#include <variant>

/// What a branch keeps from one moment to the next. Its law says what it comes to at rest; the store, how it
/// gets there.
namespace halfsplit::model {

/// In series with the law's resistance: a coil. Beside the inductance lies `losses_ohm`, which stands for
/// eddy currents and the winding's capacitance, and bounds the kick when the current is cut off. Both > 0;
/// the law must be a Resistance.
struct Inductance {
    double henry = 0;
    double losses_ohm = 0;
};

/// In parallel with the law's resistance (its leakage), behind `series_ohm`. Both > 0; the law must be a
/// Resistance.
struct Capacitance {
    double farad = 0;
    double series_ohm = 0;
};

/// The turning mass of a permanent-magnet motor, whose law must be a RunningMotor. Its speed is counted in
/// volts of back-EMF e, its inertia as the capacitance that takes up the same energy (J / k^2 with the motor
/// constant k): farad de/dt = i - i_load(e), v = law.ohm i + e.
struct Rotor {
    double farad = 0;
};

/// Heat in a filament, whose law must be a Filament. With the resistance as a share r of that at rated
/// voltage, and what the filament holds in proportion to it (tungsten takes up a little more heat as it gets
/// hotter, which makes its enthalpy follow its resistance; CRC Handbook tables, from memory):
/// dr/dt = ((v / rated_v)^2 - u(r)) / (r tau_s), where u(r) is the square of the voltage share at which the
/// law has the resistance r. `tau_s` > 0.
struct FilamentHeat {
    double tau_s = 0;
    double cold_share = 0;  ///< of its law; an Integrator fills it in
};

using Store = std::variant<std::monostate, Inductance, Capacitance, Rotor, FilamentHeat>;

}  // namespace halfsplit::model
