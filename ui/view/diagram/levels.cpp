#include "ui/view/diagram/levels.h"

#include <algorithm>
#include <set>

#include "engine/base/index.h"
#include "ui/view/diagram/text_metrics.h"
#include "ui/view/table.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kOneLineStrip = kLineHeight + 2;
constexpr int kTwoLineStrip = 2 * kLineHeight + 2;
constexpr int kBareStrip = 2;
constexpr int kChannelMargin = 3;
constexpr int kTrackPitch = 5;
/// A rail's name stands above it.
constexpr int kNamedTrackPitch = 8;
constexpr int kAsideHeight = 5;

/// "2.5", as on the reel.
std::string area_text(double area_mm2) {
    std::string text = fixed(area_mm2, 2);
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text;
}

class LevelMaker {
  public:
    LevelMaker(const Grid& grid, const model::Circuit& circuit) : grid_(grid), circuit_(circuit) {}

    Levels make() {
        const int rows = static_cast<int>(grid_.rows.size());
        for (int lead = 0; lead < static_cast<int>(grid_.ways.size()); ++lead)
            levels_.labels.push_back(label_place(lead));
        int y = add_channel(-1, 0);
        for (int row = 0; row < rows; ++row) {
            y = add_row(row, y);
            y = add_channel(row, y);
        }
        levels_.bottom = y;
        return std::move(levels_);
    }

  private:
    int add_channel(int number, int y) {
        ChannelTracks tracks = tracks_of(grid_, number);
        std::vector<bool> is_named(at(tracks.track_count), false);
        const auto& nets = grid_.channel(number);
        for (std::size_t net = 0; net < nets.size(); ++net)
            if (tracks.nets[net].track >= 0 && nets[net].is_hub && nets[net].hub.is_splice())
                is_named[at(tracks.nets[net].track)] = true;
        std::vector<int>& track_y = levels_.track_y.emplace_back();
        y += kChannelMargin;
        for (const bool named : is_named) {
            y += named ? kNamedTrackPitch : (track_y.empty() ? 0 : kTrackPitch);
            track_y.push_back(y);
        }
        if (tracks.has_aside) y += kAsideHeight;
        levels_.aside_y.push_back(y);
        levels_.channels.push_back(std::move(tracks));
        return y + kChannelMargin;
    }

    int add_row(int number, int y) {
        Levels::Row row;
        row.above = strip_of(number, true);
        row.below = strip_of(number, false);
        row.top = y;
        row.body = y + strip_height(row.above);
        row.foot = row.body;
        for (const int item : grid_.rows[at(number)])
            if (const int piece = grid_.items[at(item)].piece; piece >= 0)
                row.foot = std::max(row.foot, row.body + grid_.sheet.pieces[at(piece)].height);
        row.bottom = row.foot + strip_height(row.below);
        levels_.rows.push_back(row);
        return row.bottom;
    }

    static int strip_height(LabelStrip strip) {
        if (strip == LabelStrip::none) return kBareStrip;
        return strip == LabelStrip::one_line ? kOneLineStrip : kTwoLineStrip;
    }

    /// One line is enough for a label that does not reach as far as the next line down the page.
    LabelStrip strip_of(int row, bool above_row) {
        std::set<int> lanes;
        const auto& nets = grid_.channel(above_row ? row - 1 : row);
        for (const Net& net : nets)
            for (const Crossing& crossing : above_row ? net.below : net.above)
                lanes.insert(lane_x(grid_, crossing));
        LabelStrip strip = LabelStrip::none;
        for (auto& place : levels_.labels) {
            if (!place || place->row != row || place->above_row != above_row) continue;
            const int lane = lane_x(grid_, place->crossing);
            const auto next = lanes.upper_bound(lane);
            place->in_one_line = next == lanes.end() || lane + 3 + text_width(place->text()) < *next;
            if (!place->in_one_line) strip = LabelStrip::two_lines;
            if (strip == LabelStrip::none) strip = LabelStrip::one_line;
        }
        return strip;
    }

    /// Best at a pin, where somebody probes; else where the lead passes a row.
    std::optional<WireLabelPlace> label_place(int lead) const {
        if (grid_.sheet.leads[at(lead)].wire < 0) return std::nullopt;
        const model::Wire& wire = circuit_.wires[at(grid_.sheet.leads[at(lead)].wire)];
        const std::string colour = wire.base_colour + wire.tracer_colour;
        const std::string area = area_text(wire.area_mm2);
        std::optional<WireLabelPlace> best;
        int best_rank = -1;
        const auto offer = [&](int channel, bool is_above, const Crossing& crossing) {
            // A crossing above its channel stands at the foot of that channel's row.
            const WireLabelPlace place{
                is_above ? channel : channel + 1, !is_above, crossing, colour, area, true};
            const int rank = (is_above ? 0 : 2) + (crossing.port >= 0 ? 1 : 0);
            if (rank <= best_rank) return;
            best = place;
            best_rank = rank;
        };
        for (const Leg& leg : grid_.ways[at(lead)]) {
            if (leg.has_in) offer(leg.channel, leg.in_above, leg.in);
            if (leg.has_out) offer(leg.channel, leg.out_above, leg.out);
        }
        return best;  // a lead whose ends are both rails passes a row (grid.cpp: detour)
    }

    const Grid& grid_;
    const model::Circuit& circuit_;
    Levels levels_;
};

}  // namespace

Levels levels_of(const Grid& grid, const model::Circuit& circuit) {
    return LevelMaker(grid, circuit).make();
}

}  // namespace halfsplit::view::diagram
