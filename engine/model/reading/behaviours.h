#pragma once

#include "engine/model/read_circuit.h"
#include "engine/model/reading/report.h"

namespace halfsplit::model::reading {

/// Reads the state chart of each control unit, from the folder of the file the unit stands in, and checks it
/// against the unit's pins.
void read_behaviours(const TextSource& source, Report& report, Circuit& circuit);

}  // namespace halfsplit::model::reading
