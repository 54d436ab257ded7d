#pragma once

#include <variant>

namespace halfsplit::model {

/// What a part is electrically between two of its terminals: a current-voltage law. `v` is the voltage from
/// the first terminal to the second, `i` the current that flows in at the first and out at the second. Every
/// law is monotone (more voltage never gives less current), which is what keeps each linearised network
/// symmetric positive definite and Newton's method convergent from any start (engine/network/nodal/solver.h).

/// i = v / ohm. `ohm` > 0, or exactly 0 for an ideal short, which is merged before solving.
struct Resistance {
    double ohm = 0;
    friend bool operator==(const Resistance&, const Resistance&) = default;
};

/// A source behind its internal resistance, the first terminal positive: i = (v - emf_v) / ohm, so a source
/// that feeds the circuit has a negative i. `ohm` > 0.
struct Source {
    double emf_v = 0;
    double ohm = 0;
    friend bool operator==(const Source&, const Source&) = default;
};

/// A storage cell, the first terminal positive: discharging like a Source behind `ohm`; charging against
/// `charge_ohm`, which is larger, since a full battery takes only a few amperes at the charging voltage (its
/// overvoltage rises). i = (v - emf_v) / ohm below emf_v, (v - emf_v) / charge_ohm above. Both > 0.
struct Cell {
    double emf_v = 0;
    double ohm = 0;
    double charge_ohm = 0;
    friend bool operator==(const Cell&, const Cell&) = default;
};

/// A regulated generator behind rectifier diodes: never takes current, never gives more than `max_a`:
/// i = -clamp((emf_v - v) / ohm, 0, max_a). `ohm` > 0, `max_a` > 0.
struct RegulatedSource {
    double emf_v = 0;
    double ohm = 0;
    double max_a = 0;
    friend bool operator==(const RegulatedSource&, const RegulatedSource&) = default;
};

/// A tungsten filament in thermal balance. Its hot current follows (v / rated_v)^0.55 (lamp re-rating, Fink &
/// Beaty, Standard Handbook for Electrical Engineers, 11th ed. p. 22-8), and at v = 0 its resistance is
/// `cold_ratio` times that at `rated_v`: R(v) = R_rated ((d + (v / rated_v)^2) / (d + 1))^0.225 with d =
/// 1 / (cold_ratio^(-1 / 0.225) - 1). 0 < cold_ratio < 1.
struct Filament {
    double rated_v = 0;
    double rated_w = 0;
    double cold_ratio = 0.1;
    friend bool operator==(const Filament&, const Filament&) = default;
};

/// A pn junction: i = saturation_a (exp(v / slope_v) - 1); `slope_v` is emission coefficient times thermal
/// voltage.
struct Junction {
    double saturation_a = 0;
    double slope_v = 0;
    friend bool operator==(const Junction&, const Junction&) = default;
};

/// A permanent-magnet motor at steady speed, same for either polarity. It stands still up to `breakaway_a`
/// (i = v / ohm); turning, its back-EMF leaves a current that rises in a straight line to `load_a` at
/// `load_v`. 0 < breakaway_a <= load_a <= load_v / ohm, breakaway_a * ohm < load_v.
struct RunningMotor {
    double ohm = 0;
    double breakaway_a = 0;
    double load_a = 0;
    double load_v = 0;
    friend bool operator==(const RunningMotor&, const RunningMotor&) = default;
};

/// `d` of the law: the square of the voltage, as a share of the rated one, where heating sets in.
double cold_share(const Filament& law);

/// Half of 1 - 0.55, the re-rating exponent of the current.
inline constexpr double kFilamentExponent = 0.225;

/// The same motor with a load heavier by the factor (> 0), as far as it can still turn.
RunningMotor heavier(const RunningMotor& law, double factor);

/// A filament at the end of one step of time, see FilamentHeat in store.h: its resistance share r is where
/// r = known + step_share ((v / rated_v)^2 - u(r)) / r, with `step_share` (> 0) the implicit part of the step
/// over the filament's time constant; `known` is below 0 in a step that is far too long. The current still
/// rises with the voltage.
struct WarmingFilament {
    Filament filament;
    double step_share = 0;
    double known = 0;
    double cold_share = 0;  ///< of the filament's law; found once, since it takes longer than all the rest
    friend bool operator==(const WarmingFilament&, const WarmingFilament&) = default;
};

using Law = std::variant<Resistance, Source, Cell, RegulatedSource, Filament, Junction, RunningMotor,
                         WarmingFilament>;

}  // namespace halfsplit::model
