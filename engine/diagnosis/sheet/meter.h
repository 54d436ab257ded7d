#pragma once

#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/limits/observation.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// The voltage at the leads of a voltmeter, V, one per observation: as it is with the meter's own resistance
/// between the two nodes, in the conditions the circuit has settled to. One factorisation serves all.
tl::expected<std::vector<double>, Diagnostics> metered_v(const simulation::Settled& settled,
                                                         const std::vector<Observation>& observations);

}  // namespace halfsplit::diagnosis
