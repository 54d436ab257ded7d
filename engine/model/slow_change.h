#pragma once

#include <variant>

#include "engine/model/law.h"

/// What makes a branch's law creep over minutes and hours, so slowly that it may be taken as fixed within one
/// step of time. What has crept is one number x, 0 as the law is given.
namespace halfsplit::model {

/// Resistance over temperature, as a factor on that at rest.
/// Metal: 1 + per_kelvin x.
struct MetalCurve {
    double per_kelvin = 0;
};
/// NTC thermistor: exp(b_k (1 / (at_k + x) - 1 / at_k)), the B-parameter equation.
struct NtcCurve {
    double b_k = 0;
    double at_k = 0;
};
using ResistanceCurve = std::variant<MetalCurve, NtcCurve>;

/// The branch's own current warms it: x in K above the surroundings, x' = (kelvin_per_watt i^2 R - x) /
/// tau_s. The law must be a Resistance or a RunningMotor (whose winding it is). Both > 0.
struct Warming {
    double kelvin_per_watt = 0;
    double tau_s = 0;
    ResistanceCurve curve;
};

/// A storage cell runs down and is charged: x is the change of its charge as a share of the whole, x' = i /
/// capacity_as. The law must be a Cell. From `share_at_rest` of the charge the voltage goes with the charge
/// in a straight line of `volts_per_share`; below nothing it breaks down; above all of it charge is gas and
/// is not kept.
struct Charge {
    double capacity_as = 0;
    double share_at_rest = 1;
    double volts_per_share = 0;
};

using SlowChange = std::variant<std::monostate, Warming, Charge>;

/// The law after a change of x. Rounded to four digits of it, so that a network need not be eliminated anew
/// for nothing.
Law changed(const Law& at_rest, const SlowChange& change, double x);

/// x' = gain - x fading_per_s at this current, with the law as it is now.
struct Pace {
    double gain = 0;
    double fading_per_s = 0;
};
Pace pace(const Law& now, const SlowChange& change, double x, double current_a);

}  // namespace halfsplit::model
