#include "ui/view/diagram/column_cost.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

// In slots of level line.
constexpr int kBendCost = 2;
constexpr int kCrossingCost = 8;
constexpr int kWidthCost = 4;

/// The level line of a net reaches from one of these slots to the other.
struct Span {
    int left = 1 << 30;
    int right = -(1 << 30);
};

template <class Visit>
void for_each_slot(const Grid& grid, const Net& net, const Visit& visit) {
    for (const auto* side : {&net.above, &net.below})
        for (const Crossing& crossing : *side) visit(grid.slot_of(crossing));
}

long channel_cost(const Grid& grid, const std::vector<Net>& nets) {
    long cost = 0;
    std::vector<Span> spans;
    for (const Net& net : nets) {
        Span span;
        for_each_slot(grid, net, [&](int slot) {
            span = {std::min(span.left, slot), std::max(span.right, slot)};
        });
        if (span.right > span.left) cost += span.right - span.left + kBendCost;
        spans.push_back(span);
    }
    for (std::size_t net = 0; net < nets.size(); ++net)
        for_each_slot(grid, nets[net], [&](int slot) {
            for (std::size_t other = 0; other < nets.size(); ++other)
                if (other != net && spans[other].left < slot && slot < spans[other].right)
                    cost += kCrossingCost;
        });
    return cost;
}

int width_of(const Grid& grid) {
    Span span;
    for (const Item& item : grid.items)
        span = {std::min(span.left, item.x), std::max(span.right, item.x + item.width)};
    return std::max(0, span.right - span.left);
}

}  // namespace

long column_cost(const Grid& grid) {
    long cost = static_cast<long>(width_of(grid)) * kWidthCost;
    for (const auto& nets : grid.channels) cost += channel_cost(grid, nets);
    return cost;
}

long row_cost(const Grid& grid, int row) {
    return channel_cost(grid, grid.channel(row - 1)) + channel_cost(grid, grid.channel(row));
}

}  // namespace halfsplit::view::diagram
