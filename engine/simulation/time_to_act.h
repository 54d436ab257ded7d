#pragma once

#include <vector>

#include "engine/model/element.h"
#include "engine/network/network.h"
#include "engine/network/nodal/solver.h"

namespace halfsplit::simulation {

/// A trigger that heats, for somebody who does not look at the course of time but knows that it lasts
/// `seconds`: with the `rise` at which a steady current makes it act by then, from cold. From h' = ((i /
/// rise)^2 - h) / heat_s (model::Trigger), i = rise / sqrt(1 - exp(-seconds / heat_s)). Any other trigger
/// stays as it is, as does one that is given for ever.
model::Trigger acting_within(model::Trigger trigger, double seconds);

/// The same for all that a network has.
void let_act_within(network::Network& network, double seconds);

/// In a network that let_act_within() was called for, the triggers that hold only because it does not last
/// any longer: indices into Network::triggers, rising.
std::vector<int> held_for_now(const network::Network& network, double seconds,
                              const std::vector<int>& conditions, const network::Solution& solution);

}  // namespace halfsplit::simulation
