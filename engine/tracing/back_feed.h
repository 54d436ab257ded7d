#pragma once

#include <string>
#include <vector>

#include "engine/tracing/load_group.h"
#include "engine/tracing/step.h"

namespace halfsplit::tracing {

/// A load that carries current the wrong way: it enters at a terminal that as wired leads to ground and to no
/// supply, or leaves at one that as wired leads to a supply and to no ground. Loads whose terminals lead to
/// both (a motor that relays reverse) or to neither (two lamps in series) are never taken for it, nor loads
/// with less than 0.2 V across them.
struct BackFeed {
    std::string load;  ///< the one that carries it
    int part = 0;
    double current_a = 0;
    bool enters_at_ground_side = false;
    bool leaves_at_feed_side = false;
    std::vector<std::string> through;         ///< the other loads on its way, in order
    std::vector<std::string> open_to_ground;  ///< what is open between where it enters and ground: "W12"
    std::vector<std::string>
        open_to_supply;  ///< what is open between where it leaves and a supply: "F7.wire"
    Path route;          ///< from the source to ground
};

/// Every back-feed there is in the circuit's present state.
std::vector<BackFeed> back_feeds(const Wiring& wiring, const std::vector<LoadGroup>& loads);

}  // namespace halfsplit::tracing
