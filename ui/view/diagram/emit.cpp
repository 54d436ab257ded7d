#include "ui/view/diagram/emit.h"

#include <algorithm>
#include <set>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/path.h"
#include "ui/view/diagram/rail_names.h"
#include "ui/view/diagram/symbols.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

class Emitter {
  public:
    Emitter(Grid grid, const model::Circuit& circuit) : grid_(std::move(grid)), circuit_(circuit) {
        for (Piece& piece : grid_.sheet.pieces) dress(piece, circuit);
        levels_ = levels_of(grid_, circuit);
    }

    Diagram emit() {
        for (int piece = 0; piece < static_cast<int>(grid_.sheet.pieces.size()); ++piece) add_piece(piece);
        for (int lead = 0; lead < static_cast<int>(grid_.ways.size()); ++lead) add_lead(lead);
        for (int channel = -1; channel < static_cast<int>(grid_.rows.size()); ++channel) add_rails(channel);
        name_rails(diagram_, names_);
        diagram_.bounds = extent(diagram_);
        return std::move(diagram_);
    }

  private:
    Spot origin(int piece) const {
        const Item& item = grid_.items[at(piece)];  // pieces are the first items
        return {item.x * kSlot, levels_.rows[at(grid_.ranks.row[at(piece)])].body};
    }

    Spot port_spot(const Crossing& crossing) const {
        const int piece = grid_.items[at(crossing.item)].piece;
        const Spot from = origin(piece);
        const Spot port = grid_.sheet.pieces[at(piece)].ports[at(crossing.port)].at;
        return {from.x + port.x, from.y + port.y};
    }

    void add_piece(int index) {
        const Piece& piece = grid_.sheet.pieces[at(index)];
        const Spot from = origin(index);
        diagram_.symbols.push_back(symbol_of(piece, circuit_, from));
        for (Label label : piece.labels) {
            label.box = moved(label.box, from);
            diagram_.labels.push_back(std::move(label));
        }
        if (piece.link.empty()) return;
        std::vector<Spot> stub;
        for (const Spot spot : piece.link) stub.push_back({spot.x + from.x, spot.y + from.y});
        diagram_.links.push_back({"", circuit_.parts[at(piece.part)].id, {stub}});
    }

    /// Whether the line of this crossing steps aside in its channel.
    bool is_aside(int channel, int net, bool above, const Crossing& crossing) const {
        if (above) return false;
        const auto& below = grid_.channel(channel)[at(net)].below;
        for (std::size_t i = 0; i < below.size(); ++i)
            if (below[i].item == crossing.item && below[i].port == crossing.port)
                return levels_.channels[at(channel + 1)].nets[at(net)].aside[i];
        return false;
    }

    int track_y(int channel, int net) const {
        const int track = levels_.channels[at(channel + 1)].nets[at(net)].track;
        return track < 0 ? 0 : levels_.track_y[at(channel + 1)][at(track)];
    }

    /// From the border of the channel to the net's track; nothing for a straight net.
    std::vector<Spot> to_track(int channel, int net, bool above, const Crossing& crossing) const {
        if (levels_.channels[at(channel + 1)].nets[at(net)].track < 0) return {};
        const int y = track_y(channel, net);
        const int x = lane_x(grid_, crossing);
        if (!is_aside(channel, net, above, crossing)) return {{x, y}};
        const int side = levels_.aside_y[at(channel + 1)];
        return {{x, side}, {x + kHalfSlot, side}, {x + kHalfSlot, y}};
    }

    static std::vector<Spot> reversed(std::vector<Spot> spots) {
        std::reverse(spots.begin(), spots.end());
        return spots;
    }

    /// From a pin to where its lead goes its own way: wires that share a pin run together as far as their
    /// dot. Nothing for a splice: there a wire begins on the rail.
    std::vector<Spot> from_pin(const End& end, const Leg& leg) const {
        if (end.is_splice()) return {};
        const Crossing pin{end.piece, end.port};
        std::vector<Spot> spots{port_spot(pin)};
        if (!grid_.ranks.hub(end)) return spots;
        const bool is_above = grid_.sheet.port(end).side == Side::bottom;
        for (const Spot spot : to_track(leg.channel, leg.net, is_above, pin)) spots.push_back(spot);
        return spots;
    }

    void add_lead(int index) {
        const Lead& lead = grid_.sheet.leads[at(index)];
        const std::vector<Leg>& way = grid_.ways[at(index)];
        Path path;
        path.add(from_pin(lead.a, way.front()));
        for (const Leg& leg : way) {
            if (leg.has_in) path.add(to_track(leg.channel, leg.net, leg.in_above, leg.in));
            if (leg.has_out) path.add(reversed(to_track(leg.channel, leg.net, leg.out_above, leg.out)));
        }
        path.add(reversed(from_pin(lead.b, way.back())));
        if (lead.wire < 0)
            diagram_.links.push_back({mechanism_of(lead), circuit_.parts[at(lead.moved)].id, {path.spots()}});
        else
            add_wire(index, path.spots());
    }

    const std::string& mechanism_of(const Lead& lead) const {
        return circuit_.parts[at(grid_.sheet.pieces[at(lead.b.piece)].part)].id;
    }

    void add_wire(int lead, std::vector<Spot> path) {
        const model::Wire& wire = circuit_.wires[at(grid_.sheet.leads[at(lead)].wire)];
        diagram_.wires.push_back({wire.id, circuit_.point_name(wire.from), circuit_.point_name(wire.to),
                                  wire.base_colour, wire.tracer_colour, std::move(path)});
        const WireLabelPlace& place = *levels_.labels[at(lead)];
        const Levels::Row& row = levels_.rows[at(place.row)];
        const Spot top{lane_x(grid_, place.crossing) + 2, place.above_row ? row.top + 1 : row.foot + 1};
        const bool is_tall = (place.above_row ? row.above : row.below) == LabelStrip::two_lines;
        // Beside a taller label the lower line, next to the pin.
        if (place.in_one_line)
            return add_label(place.text(), Label::Role::wire, wire.id,
                             {top.x, top.y + (is_tall && place.above_row ? kLineHeight : 0)});
        add_label(place.colour, Label::Role::wire, wire.id, top);
        add_label(place.area, Label::Role::wire, wire.id, {top.x, top.y + kLineHeight});
    }

    void add_label(const std::string& text, Label::Role role, const std::string& owner, Spot top) {
        if (text.empty()) return;
        diagram_.labels.push_back(
            {text, role, owner, {top.x, top.y, top.x + text_width(text), top.y + kLineHeight}});
    }

    void add_rails(int channel) {
        const auto& nets = grid_.channel(channel);
        for (int net = 0; net < static_cast<int>(nets.size()); ++net)
            if (nets[at(net)].is_hub) add_rail(channel, net);
    }

    void add_rail(int channel, int index) {
        const Net& net = grid_.channel(channel)[at(index)];
        const NetTrack& track = levels_.channels[at(channel + 1)].nets[at(index)];
        if (!net.hub.is_splice()) {
            const Port& port = grid_.sheet.port(net.hub);
            const Piece& piece = grid_.sheet.pieces[at(net.hub.piece)];
            if (port.pin >= 0) add_dots(channel, index, circuit_.point_name({piece.part, port.pin}), false);
            return;
        }
        const int y = track_y(channel, index);
        const SpliceRail& splice = grid_.sheet.splices[at(net.hub.splice)];
        const std::string& id = circuit_.parts[at(splice.part)].id;
        diagram_.rails.push_back({id, {{track.left, y}, {track.right, y}}});
        names_.push_back({id, splice.see, track.left, track.right, y});
        add_dots(channel, index, id, true);
    }

    void add_dots(int channel, int index, const std::string& point, bool is_splice) {
        const Net& net = grid_.channel(channel)[at(index)];
        const NetTrack& track = levels_.channels[at(channel + 1)].nets[at(index)];
        const int y = track_y(channel, index);
        std::multiset<int> taps;
        for (const Crossing& crossing : net.above) taps.insert(lane_x(grid_, crossing));
        for (std::size_t i = 0; i < net.below.size(); ++i)
            taps.insert(lane_x(grid_, net.below[i], track.aside[i]));
        bool any = false;
        for (auto tap = taps.begin(); tap != taps.end(); tap = taps.upper_bound(*tap)) {
            const int arms = static_cast<int>(taps.count(*tap)) + (*tap > track.left ? 1 : 0) +
                             (*tap < track.right ? 1 : 0);
            if (arms < 3) continue;
            diagram_.dots.push_back({point, {*tap, y}});
            any = true;
        }
        if (!any && is_splice && !taps.empty()) diagram_.dots.push_back({point, {*taps.begin(), y}});
    }

    Grid grid_;
    const model::Circuit& circuit_;
    Levels levels_;
    Diagram diagram_;
    std::vector<RailName> names_;
};

}  // namespace

Diagram drawn(Grid grid, const model::Circuit& circuit) {
    return Emitter(std::move(grid), circuit).emit();
}

}  // namespace halfsplit::view::diagram
