#pragma once

#include <vector>

#include "ui/view/diagram/heights.h"

namespace halfsplit::view::diagram {

/// One way on from a point of distribution: over its first wire, and the protection this leads to.
struct FeedWay {
    int wire = 0;
    int protection = -1;           ///< part; -1: none, what follows is not protected here
    model::PinRef in = {};         ///< where the wire ends
    std::vector<int> blocks = {};  ///< where it is distributed again
    std::vector<int> loads = {};   ///< other parts it leads to, in the author's order
};

/// A point from which current is distributed: a battery's pole, a rail of the fuse box.
struct FeedBlock {
    model::PinRef at;
    model::PinRef from = {-1, -1};  ///< the last pin it comes through; part -1 for a source
    std::vector<FeedWay> ways = {};
};

/// Every protection of the circuit once, behind the point its wire comes from: from the batteries on, through
/// protections, switches, contacts of relays and plugs as wired.
std::vector<FeedBlock> feed_blocks(const model::Circuit& circuit, const Heights& heights);

/// A ground point and the parts that are wired to it, over splices and plugs.
struct GroundUse {
    int ground = 0;
    std::vector<int> parts = {};
};
std::vector<GroundUse> ground_uses(const model::Circuit& circuit);

}  // namespace halfsplit::view::diagram
