#pragma once

#include "engine/network/network.h"

namespace halfsplit::network {

/// Puts every part into the condition the situation's positions ask for, or its rest, and checks quantities.
void place_conditions(const model::Circuit& circuit, const Situation& situation, Network& network,
                      Diagnostics& problems);

}  // namespace halfsplit::network
