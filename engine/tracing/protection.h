#pragma once

#include <set>
#include <string>
#include <vector>

#include "engine/tracing/load_group.h"

namespace halfsplit::tracing {

/// What stands behind a fuse: everything whose feed goes only through it, all switches taken as closed.
struct Protected {
    std::vector<int> wires;          ///< indices into the circuit
    std::vector<std::string> loads;  ///< names of load groups
};

/// Behind these branches (one, for a fuse).
Protected protected_by(const Wiring& wiring, const std::vector<LoadGroup>& loads,
                       const std::set<int>& branches);

}  // namespace halfsplit::tracing
