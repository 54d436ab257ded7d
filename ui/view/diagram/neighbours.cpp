#include "ui/view/diagram/neighbours.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

// A bend in a long line costs two corners, a line between two pins one, a rail can be met anywhere.
constexpr int kPassingWeight = 4;
constexpr int kPinWeight = 2;
constexpr int kRailWeight = 1;

bool same(const Crossing& a, const Crossing& b) {
    return a.item == b.item && a.port == b.port;
}

}  // namespace

Neighbours::Neighbours(const Grid& grid) : ties_(grid.items.size()) {
    const int channels = static_cast<int>(grid.channels.size());
    for (int channel = -1; channel < channels - 1; ++channel) {
        const auto& nets = grid.channel(channel);
        for (int net = 0; net < static_cast<int>(nets.size()); ++net) {
            for (const Crossing& crossing : nets[at(net)].above)
                ties_[at(crossing.item)].push_back({channel, net, crossing, true});
            for (const Crossing& crossing : nets[at(net)].below)
                ties_[at(crossing.item)].push_back({channel, net, crossing, false});
        }
    }
}

template <class Visit>
void Neighbours::for_each_other(const Grid& grid, const Tie& tie, const Visit& visit) const {
    const Net& net = grid.channel(tie.channel)[at(tie.net)];
    for (const auto* side : {&net.above, &net.below})
        for (const Crossing& crossing : *side)
            if (!same(crossing, tie.own)) visit(crossing);
}

bool Neighbours::add_votes(const Grid& grid, int item, Look look, std::vector<Vote>& votes) const {
    bool any = false;
    std::vector<int> slots;
    for (const Tie& tie : ties_[at(item)]) {
        if ((look == Look::up && tie.is_down) || (look == Look::down && !tie.is_down)) continue;
        slots.clear();
        bool is_passing = tie.own.port < 0;
        for_each_other(grid, tie, [&](const Crossing& crossing) {
            slots.push_back(grid.slot_of(crossing));
            is_passing = is_passing && crossing.port < 0;
        });
        if (slots.empty()) continue;
        if (slots.size() > 1)
            std::nth_element(slots.begin(), slots.begin() + static_cast<int>(slots.size()) / 2, slots.end());
        const bool is_rail = grid.channel(tie.channel)[at(tie.net)].is_hub;
        votes.push_back({slots[slots.size() / 2] - grid.slot_in(tie.own),
                         is_rail ? kRailWeight : (is_passing ? kPassingWeight : kPinWeight)});
        any = true;
    }
    return any;
}

std::optional<double> Neighbours::target(const Grid& grid, int item, int port) const {
    double sum = 0;
    int count = 0;
    for (const Tie& tie : ties_[at(item)]) {
        if (tie.own.port != port) continue;
        for_each_other(grid, tie, [&](const Crossing& crossing) {
            sum += grid.slot_of(crossing);
            ++count;
        });
    }
    return count > 0 ? std::optional<double>(sum / count) : std::nullopt;
}

std::vector<int> Neighbours::depth_first(const Grid& grid) const {
    std::vector<int> order;
    std::vector<bool> seen(grid.items.size(), false);
    for (const auto& row : grid.rows)
        for (const int start : row) {
            std::vector<int> stack{start};
            while (!stack.empty()) {
                const int item = stack.back();
                stack.pop_back();
                if (seen[at(item)]) continue;
                seen[at(item)] = true;
                order.push_back(item);
                std::vector<int> next;
                for (const bool down : {true, false})
                    for (const Tie& tie : ties_[at(item)])
                        if (tie.is_down == down)
                            for_each_other(grid, tie,
                                           [&](const Crossing& crossing) { next.push_back(crossing.item); });
                stack.insert(stack.end(), next.rbegin(), next.rend());
            }
        }
    return order;
}

}  // namespace halfsplit::view::diagram
