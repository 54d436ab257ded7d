#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ui/view/diagram/tracks.h"

namespace halfsplit::view::diagram {

/// Where a wire's colour and size stand: beside its line, in the strip above or below a row.
struct WireLabelPlace {
    int row = 0;
    bool above_row = true;
    Crossing crossing;
    std::string colour;  ///< "RDGN"
    std::string area;    ///< "2.5"
    bool in_one_line = true;

    std::string text() const { return colour + " " + area; }
};

enum class LabelStrip { none, one_line, two_lines };

/// All y of a grid.
struct Levels {
    struct Row {
        int top = 0;   ///< strip of labels begins
        int body = 0;  ///< pieces begin
        int foot = 0;  ///< the strip below them begins
        int bottom = 0;
        LabelStrip above = LabelStrip::none;
        LabelStrip below = LabelStrip::none;
    };
    std::vector<Row> rows;
    std::vector<ChannelTracks> channels;                ///< channel c at c + 1
    std::vector<std::vector<int>> track_y;              ///< of each channel
    std::vector<int> aside_y;                           ///< of each channel: where lines step aside
    std::vector<std::optional<WireLabelPlace>> labels;  ///< of each lead; nullopt for links
    int bottom = 0;
};

Levels levels_of(const Grid& grid, const model::Circuit& circuit);

}  // namespace halfsplit::view::diagram
