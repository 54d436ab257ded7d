#pragma once

#include <array>
#include <vector>

#include "engine/base/index.h"
#include "ui/view/diagram/rank.h"

namespace halfsplit::view::diagram {

/// What stands in a row: a piece, or one lead passing through it.
struct Item {
    int piece = -1;
    int lead = -1;
    int width = 1;  ///< in slots
    int x = 0;      ///< its first slot
};

/// Where a line crosses the border between a row and a channel.
struct Crossing {
    int item = 0;
    int port = -1;  ///< of the item's piece; -1 for a passing lead
};

/// What is joined within one channel: one wire passing from row to row, or all that meets at a point.
struct Net {
    End hub = {};  ///< the point whose rail this is
    bool is_hub = false;
    int lead = -1;                     ///< the one lead, where it is no hub
    std::vector<Crossing> above = {};  ///< to the row above the channel
    std::vector<Crossing> below = {};
};

/// A step of a lead's way: through a net of a channel from one crossing to the next. Where the lead begins or
/// ends on a rail, the crossing on that side is missing.
struct Leg {
    int channel = 0;
    int net = 0;
    bool has_in = false;
    bool in_above = false;
    Crossing in = {};
    bool has_out = false;
    bool out_above = false;
    Crossing out = {};
};

/// Rows of items, channels of nets between them, and the way of every lead.
struct Grid {
    Sheet sheet;
    Ranks ranks;
    std::vector<Item> items;
    std::vector<std::vector<int>> rows;      ///< items from left to right
    std::vector<std::vector<Net>> channels;  ///< channel c at c + 1
    std::vector<std::vector<Leg>> ways;      ///< of each lead

    std::vector<Net>& channel(int number) { return channels[at(number + 1)]; }
    const std::vector<Net>& channel(int number) const { return channels[at(number + 1)]; }
    int slot_in(const Crossing& crossing) const;
    /// The slot in which the line crosses.
    int slot_of(const Crossing& crossing) const;
};

Grid grid_of(Sheet sheet, Ranks ranks);

}  // namespace halfsplit::view::diagram
