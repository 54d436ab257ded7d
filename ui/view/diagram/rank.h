#pragma once

#include <vector>

#include "ui/view/diagram/sheet.h"

namespace halfsplit::view::diagram {

/// Which row each piece stands in (from 0) and which channel each splice's rail runs in: channel c lies below
/// row c, channel -1 above the first.
struct Ranks {
    std::vector<int> row;             ///< of each piece
    std::vector<int> splice_channel;  ///< of each splice
    int row_count = 0;
    std::vector<std::vector<bool>> is_hub;  ///< of each port: several leads meet there

    /// Where the lead leaves its end.
    int channel_of(const Sheet& sheet, const End& end) const;
    bool hub(const End& end) const;
};

/// Rows by the longest way from the supply; ground points last; the author's rows win.
Ranks rank(const model::Circuit& circuit, const Sheet& sheet, const Heights& heights);

}  // namespace halfsplit::view::diagram
