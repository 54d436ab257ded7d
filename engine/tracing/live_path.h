#pragma once

#include <optional>

#include "engine/tracing/origin.h"
#include "engine/tracing/step.h"

namespace halfsplit::tracing {

/// The way the current through a branch really takes: from there against the current to a source, with it to
/// a ground (or into a source that is being charged), at every node along the branch that carries most.
/// nullopt where the branch carries nothing.
std::optional<Path> live_path_through(const Wiring& wiring, int branch);

/// Through the branch of the thing that carries most: of a part or wire its own, of a pin its plug contact,
/// of any other point what is joined there.
std::optional<Path> live_path(const Wiring& wiring, const Start& start);

}  // namespace halfsplit::tracing
