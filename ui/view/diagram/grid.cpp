#include "ui/view/diagram/grid.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

class GridMaker {
  public:
    GridMaker(Sheet sheet, Ranks ranks) {
        grid_.sheet = std::move(sheet);
        grid_.ranks = std::move(ranks);
    }

    Grid make() {
        grid_.rows.resize(at(std::max(1, grid_.ranks.row_count)));
        grid_.channels.resize(grid_.rows.size() + 1);
        for (int piece = 0; piece < static_cast<int>(grid_.sheet.pieces.size()); ++piece)
            add_item(grid_.ranks.row[at(piece)], {piece, -1, grid_.sheet.pieces[at(piece)].width});
        for (int lead = 0; lead < static_cast<int>(grid_.sheet.leads.size()); ++lead) route(lead);
        return std::move(grid_);
    }

  private:
    int add_item(int row, Item item) {
        const int index = static_cast<int>(grid_.items.size());
        grid_.items.push_back(item);
        grid_.rows[at(row)].push_back(index);
        return index;
    }

    int channel_of(const End& end) const { return grid_.ranks.channel_of(grid_.sheet, end); }

    /// The net of all that meets at this end, made where it is not there yet.
    int hub_net(const End& end) {
        const auto key = std::tuple(end.piece, end.port, end.splice);
        if (const auto found = hubs_.find(key); found != hubs_.end()) return found->second;
        std::vector<Net>& nets = grid_.channel(channel_of(end));
        const int index = static_cast<int>(nets.size());
        Net net;
        net.hub = end;
        net.is_hub = true;
        nets.push_back(net);
        if (!end.is_splice()) add_crossing(nets.back(), is_above(end), {end.piece, end.port});
        hubs_.emplace(key, index);
        return index;
    }

    /// A pin at the foot of its piece stands above the channel its lead leaves through.
    bool is_above(const End& end) const { return grid_.sheet.port(end).side == Side::bottom; }

    static void add_crossing(Net& net, bool above, Crossing crossing) {
        (above ? net.above : net.below).push_back(crossing);
    }

    int plain_net(int channel, int lead) {
        std::vector<Net>& nets = grid_.channel(channel);
        Net net;
        net.lead = lead;
        nets.push_back(net);
        return static_cast<int>(nets.size()) - 1;
    }

    void route(int lead) {
        const End& a = grid_.sheet.leads[at(lead)].a;
        const End& b = grid_.sheet.leads[at(lead)].b;
        std::vector<Leg>& way = grid_.ways.emplace_back();
        const bool hub_a = grid_.ranks.hub(a);
        const bool hub_b = grid_.ranks.hub(b);
        const int first = channel_of(a);
        const int last = channel_of(b);
        Leg leg = first_leg(lead, a, hub_a, hub_b && first == last, b);
        if (first == last && hub_a && hub_b) {
            detour(lead, leg, b, way);
            return;
        }
        const int step = last > first ? 1 : -1;
        for (int channel = first; channel != last; channel += step) {
            const int row = step > 0 ? channel + 1 : channel;
            const Crossing crossing{add_item(row, {-1, lead, 1}), -1};
            leave(leg, crossing, step < 0);
            way.push_back(leg);
            const int next = channel + step;
            const int net = next == last && hub_b ? hub_net(b) : plain_net(next, lead);
            leg = enter(next, net, crossing, step > 0);
        }
        if (!hub_b) leave(leg, {b.piece, b.port}, is_above(b));
        way.push_back(leg);
    }

    Leg first_leg(int lead, const End& a, bool hub_a, bool ends_on_hub, const End& b) {
        const int channel = channel_of(a);
        if (hub_a) return {.channel = channel, .net = hub_net(a)};
        const int net = ends_on_hub ? hub_net(b) : plain_net(channel, lead);
        return enter(channel, net, {a.piece, a.port}, is_above(a));
    }

    Leg enter(int channel, int net, Crossing crossing, bool above) {
        add_crossing(grid_.channel(channel)[at(net)], above, crossing);
        return {.channel = channel, .net = net, .has_in = true, .in_above = above, .in = crossing};
    }

    void leave(Leg& leg, Crossing crossing, bool above) {
        add_crossing(grid_.channel(leg.channel)[at(leg.net)], above, crossing);
        leg.has_out = true;
        leg.out_above = above;
        leg.out = crossing;
    }

    /// Between two rails in one channel there is no room for a line of their own: it goes through the next
    /// row and back.
    void detour(int lead, Leg leg, const End& b, std::vector<Leg>& way) {
        const int channel = leg.channel;
        const bool through_above = channel >= 0;
        const int row = through_above ? channel : channel + 1;
        const int beyond = through_above ? channel - 1 : channel + 1;
        const Crossing out{add_item(row, {-1, lead, 1}), -1};
        const Crossing back{add_item(row, {-1, lead, 1}), -1};
        leave(leg, out, through_above);
        way.push_back(leg);
        Leg middle = enter(beyond, plain_net(beyond, lead), out, !through_above);
        leave(middle, back, !through_above);
        way.push_back(middle);
        way.push_back(enter(channel, hub_net(b), back, through_above));
    }

    Grid grid_;
    std::map<std::tuple<int, int, int>, int> hubs_;
};

}  // namespace

int Grid::slot_in(const Crossing& crossing) const {
    const int piece = items[at(crossing.item)].piece;
    return piece < 0 ? 0 : sheet.pieces[at(piece)].ports[at(crossing.port)].slot;
}

int Grid::slot_of(const Crossing& crossing) const {
    return items[at(crossing.item)].x + slot_in(crossing);
}

Grid grid_of(Sheet sheet, Ranks ranks) {
    return GridMaker(std::move(sheet), std::move(ranks)).make();
}

}  // namespace halfsplit::view::diagram
