#pragma once

#include "engine/instruments/instrument.h"

namespace halfsplit::instruments {

/// Direct-voltage input resistance of a digital multimeter (Kuphaldt, Lessons in Electric Circuits vol. I ch.
/// 8).
inline constexpr double kVoltmeterOhm = 10e6;

/// What the voltmeter shows of a voltage that stands at its leads, and within which limits that voltage then
/// lies by the meter's accuracy.
Reading volts_on_display(double volts);

}  // namespace halfsplit::instruments
