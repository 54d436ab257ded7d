#pragma once

#include <vector>

#include "ui/view/diagram/neighbours.h"

namespace halfsplit::view::diagram {

/// The items of a row from left to right: their widths in slots and where they would like to begin.
struct RowWishes {
    std::vector<int> widths;
    std::vector<Vote> votes;  ///< those of the first item, then those of the next …
    std::vector<int> ends;    ///< of each item: one past its last vote; every item has one at least

    void clear() {
        widths.clear();
        votes.clear();
        ends.clear();
    }
};

/// Sets `places` to where the items begin, without overlap, so that the weighted sum of distances to all
/// votes is least: isotonic regression in the L1 norm by pooling adjacent violators. Changes the votes'
/// order.
void find_row_places(RowWishes& wishes, std::vector<int>& places);

}  // namespace halfsplit::view::diagram
