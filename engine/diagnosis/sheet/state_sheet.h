#pragma once

#include <tl/expected.hpp>

#include "engine/diagnosis/sheet/sheet.h"
#include "engine/diagnosis/sheet/test_points.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// What is the same in every state: the circuit as wired.
struct AsWired {
    const model::Circuit& circuit;
    const Walk& walk;
    const std::vector<TestPoint>& points;
    const std::vector<int>& parts;  ///< see SheetOptions
};

/// The sheet of one state the sound circuit has settled to.
tl::expected<StateSheet, Diagnostics> state_sheet(const AsWired& wired, int state,
                                                  const simulation::Settled& settled);

}  // namespace halfsplit::diagnosis
