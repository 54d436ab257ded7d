#pragma once

#include <vector>

#include "ui/view/diagram/neighbours.h"

namespace halfsplit::view::diagram {

/// An item of a row: its width in slots and where it would like to begin.
struct Wish {
    int width = 1;
    std::vector<Vote> votes;  ///< at least one
};

/// Where the items begin, from left to right without overlap, so that the weighted sum of distances to all votes
/// is least: isotonic regression in the L1 norm by pooling adjacent violators.
std::vector<int> row_places(const std::vector<Wish>& wishes);

}  // namespace halfsplit::view::diagram
