#pragma once

#include "engine/model/law.h"

namespace halfsplit::network {

/// Current of a law at some voltage, and how it rises with the voltage there (never negative).
struct OperatingSlope {
    double current_a = 0;
    double slope_s = 0;
};

/// The laws are stated in engine/model/law.h. At a kink the slope is that of the side with the smaller
/// voltage. A junction goes on as its tangent above kJunctionTangentA; where its exponential no longer
/// changes the current in the last bit its slope is exactly 0, so that no denormal numbers arise.
OperatingSlope characteristic(const model::Law& law, double voltage_v);

/// So far from `at_v`, in volts, that the law's current surely keeps within `off_a` of its tangent at `at_v`,
/// which is `there`, and that limited_voltage() lets it go: from bounds of the second derivative. 0 where no
/// bound is known.
double straight_v(const model::Law& law, double at_v, const OperatingSlope& there, double off_a);

/// A filament's thermal balance: u(r), the square of the voltage, as a share of the rated one, that holds it
/// at r times its rated resistance, and how u rises with r. r > 0.
struct FilamentBalance {
    double square = 0;
    double slope = 0;
};
FilamentBalance filament_balance(double cold_share, double resistance_share);

/// r at the end of a step of time with `voltage_v` across it then.
double resistance_share_after(const model::WarmingFilament& law, double voltage_v);

/// Whether the current is a straight line over the voltage.
bool is_linear(const model::Law& law);

/// A voltage at which the law is typically at work: where Newton's method starts from cold.
double usual_voltage(const model::Law& law);

/// Where Newton's method should linearise a law next, if it stood at `from_v` and now asks for `to_v`. Mostly
/// `to_v`, but the exponential of a junction is followed by current instead of by voltage when it would run
/// away (junction limiting of Nagel, SPICE2, memorandum ERL-M520, Berkeley 1975), and lamps and motors, steep
/// around 0 V, do not jump across it.
double limited_voltage(const model::Law& law, double from_v, double to_v);

/// Throws std::invalid_argument when a value is outside the range that engine/model/law.h states, or not
/// finite.
void require_valid(const model::Law& law);

}  // namespace halfsplit::network
