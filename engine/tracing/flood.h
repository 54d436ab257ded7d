#pragma once

#include <set>
#include <vector>

#include "engine/tracing/wiring.h"

namespace halfsplit::tracing {

/// What a flood may pass.
struct FloodRules {
    Extent extent = Extent::now;
    Sense sense = Sense::with_current;
    std::set<int> barred_branches = {};  ///< as if they were not there
    int barred_vertex = -1;              ///< as if this node had fallen apart; -1: none
    bool only_conductors = false;        ///< stops at switching contacts and fuses too
};

/// The vertices that hang on one of `starts` without a load between (one flag per vertex, both ways). The
/// grounds are reached and not passed, unless they are starts. As wired, a changeover contact never joins its
/// two outer pins.
std::vector<bool> flood(const Wiring& wiring, const std::vector<bool>& starts, const FloodRules& rules);

}  // namespace halfsplit::tracing
