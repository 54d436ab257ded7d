#pragma once

#include <vector>

#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

/// How a net lies in its channel.
struct NetTrack {
    int track = -1;           ///< -1: it goes straight down and needs none
    std::vector<bool> aside;  ///< of each crossing below: whether its line steps aside just above the row
    int left = 0;             ///< of the horizontal line, in grid units
    int right = 0;
};

struct ChannelTracks {
    std::vector<NetTrack> nets;
    int track_count = 0;
    bool has_aside = false;
};

/// Horizontal tracks by the left-edge algorithm under the constraint that lines from above and from below in
/// one slot must not meet; where that goes round in circles, lines from below step aside by half a slot,
/// where nobody else goes. So no two nets ever share a piece of line.
ChannelTracks tracks_of(const Grid& grid, int channel);

/// Where the crossing's line runs within the channel, in grid units.
int lane_x(const Grid& grid, const Crossing& crossing, bool aside = false);

/// A rail with a single tap in this band is drawn this far to either side of it, to look like a rail.
inline constexpr int kRailOverhang = 7;

}  // namespace halfsplit::view::diagram
