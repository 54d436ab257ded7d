#pragma once

#include <vector>

#include "engine/network/network.h"
#include "engine/network/situation.h"

namespace halfsplit::network {

/// Joins what parts say of moving, blocking and following (one Electrics per part) over a network whose
/// branches stand: which rotor moves what, how heavy that is, and which switches it moves. Puts what is moved
/// where the situation asks for, and switches and jammed motors accordingly.
void join_moved_parts(const model::Circuit& circuit, const Situation& situation,
                      const std::vector<model::Electrics>& electrics, Network& network,
                      Diagnostics& problems);

/// The condition a follower is in where its mechanism stands at `share` of its travel.
int followed_condition(const model::Follower& follower, double share);

}  // namespace halfsplit::network
