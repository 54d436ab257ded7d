#pragma once

#include "engine/base/diagnostic.h"
#include "engine/model/chart/chart.h"
#include "engine/model/circuit.h"

namespace halfsplit::model::chart {

/// What the chart asks of the control unit that the unit has not: a pin that is not there or is of another
/// kind, a level its driver cannot take. `_in` and events `in.PIN.high` and `in.PIN.low` need an input, a bus
/// pin or a supply (units watch their supplies); `_hz` an input or a bus pin; `_amps` and `driver.PIN` a
/// high-side, low-side or half-bridge pin.
Diagnostics check_unit(const Chart& chart, const Part& unit);

}  // namespace halfsplit::model::chart
