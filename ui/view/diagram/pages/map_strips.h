#pragma once

#include <optional>
#include <vector>

#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/pages/feed_tree.h"
#include "ui/view/diagram/pages/whereabouts.h"

namespace halfsplit::view::diagram {

/// A line of the map, as wide as a column: from its own left top corner.
struct MapStrip {
    int block = -1;  ///< of the feeds; -1: a ground point, or what stands above them
    bool is_heading = false;
    int height = 0;
    std::vector<Label> labels = {};
    std::vector<Symbol> symbols = {};
    std::optional<WireLine> tap = {};  ///< from the block's rail
    int tap_y = 0;
};

struct MapStrips {
    std::vector<MapStrip> strips;
    std::vector<FeedBlock> blocks;
    int width = 0;
};

/// Where the rail of a block runs.
inline constexpr int kMapRailX = 4;

MapStrips map_strips(const model::Circuit& circuit, const Heights& heights, const Whereabouts& whereabouts,
                     int number);

}  // namespace halfsplit::view::diagram
