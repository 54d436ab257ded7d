#pragma once

#include "engine/network/nodal/branch.h"

namespace halfsplit::diagnosis {

/// The voltage between two points of a network, by their nodes.
struct Observation {
    int at = network::kBody;
    int against = network::kBody;
};

}  // namespace halfsplit::diagnosis
