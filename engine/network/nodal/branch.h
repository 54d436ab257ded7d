#pragma once

#include "engine/model/law.h"

namespace halfsplit::network {

/// The vehicle body: the reference every potential is given against (0 V).
inline constexpr int kBody = -1;

/// One two-terminal element between two electrical nodes. Nodes are 0 … node_count-1, or kBody.
/// `conducts` is false for an open contact or a torn wire: the branch then carries exactly nothing,
/// but keeps its place, so that opening and closing changes values and never the structure.
struct Branch {
    int from = kBody;
    int to = kBody;
    model::Law law;
    bool conducts = true;
};

/// The straight line that stands for a branch with a curved law near a voltage.
struct Tangent {
    int branch = 0;
    double at_v = 0;
    double current_a = 0;  ///< there
    double slope_s = 0;
    double straight_v = 0;  ///< so far from at_v it surely stands for the law; 0 where that is not known
};

}  // namespace halfsplit::network
