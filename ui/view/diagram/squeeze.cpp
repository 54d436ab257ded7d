#include "ui/view/diagram/squeeze.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

class Squeezer {
  public:
    explicit Squeezer(Grid& grid) : grid_(grid), partners_(grid.items.size()), left_(grid.items.size(), -1) {
        for (const auto& row : grid.rows)
            for (std::size_t i = 1; i < row.size(); ++i) left_[at(row[i])] = row[i - 1];
        for (const auto& nets : grid.channels)
            for (const Net& net : nets) {
                if (net.is_hub || net.above.size() != 1 || net.below.size() != 1) continue;
                const Crossing& above = net.above.front();
                const Crossing& below = net.below.front();
                if (grid.slot_of(above) != grid.slot_of(below)) continue;
                partners_[at(above.item)].push_back(below.item);
                partners_[at(below.item)].push_back(above.item);
            }
    }

    void squeeze() {
        while (const auto moving = what_moves_left())
            for (std::size_t item = 0; item < moving->size(); ++item)
                if ((*moving)[item]) --grid_.items[item].x;
    }

  private:
    int right_edge() const {
        int edge = 0;
        for (const Item& item : grid_.items) edge = std::max(edge, item.x + item.width);
        return edge;
    }

    /// What stands at the right edge, what is straight below or above it, and what it would push; nullopt
    /// where that reaches the left edge.
    std::optional<std::vector<bool>> what_moves_left() const {
        const int edge = right_edge();
        std::vector<bool> moving(grid_.items.size(), false);
        std::vector<int> open;
        const auto move = [&](int item) {
            if (moving[at(item)]) return;
            moving[at(item)] = true;
            open.push_back(item);
        };
        for (int item = 0; item < static_cast<int>(grid_.items.size()); ++item)
            if (grid_.items[at(item)].x + grid_.items[at(item)].width == edge) move(item);
        while (!open.empty()) {
            const int item = open.back();
            open.pop_back();
            if (grid_.items[at(item)].x == 0) return std::nullopt;
            for (const int partner : partners_[at(item)]) move(partner);
            const int left = left_[at(item)];
            if (left >= 0 && grid_.items[at(left)].x + grid_.items[at(left)].width == grid_.items[at(item)].x)
                move(left);
        }
        return moving;
    }

    Grid& grid_;
    std::vector<std::vector<int>> partners_;  ///< straight above or below each item
    std::vector<int> left_;                   ///< the neighbour in the row, -1 for none
};

}  // namespace

void squeeze(Grid& grid) {
    if (!grid.items.empty()) Squeezer(grid).squeeze();
}

}  // namespace halfsplit::view::diagram
