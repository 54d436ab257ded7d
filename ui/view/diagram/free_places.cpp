#include "ui/view/diagram/free_places.h"

#include <algorithm>
#include <iterator>

namespace halfsplit::view::diagram {

FreePlaces::FreePlaces(const Diagram& diagram) {
    for (const Symbol& symbol : diagram.symbols) take(symbol.ink);
    for (const Label& label : diagram.labels) take(label.box);
    for (const WireLine& wire : diagram.wires) take(wire.path);
    for (const Rail& rail : diagram.rails) take(rail.path);
    for (const MotionLink& link : diagram.links)
        for (const auto& path : link.paths) take(path);
}

bool FreePlaces::is_free(const Box& box) const {
    return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return box.overlaps(other); });
}

FreePlaces FreePlaces::around(Spot spot, int reach) const {
    const Box near{spot.x - reach, spot.y - reach, spot.x + reach, spot.y + reach};
    FreePlaces some;
    std::copy_if(taken_.begin(), taken_.end(), std::back_inserter(some.taken_),
                 [&](const Box& box) { return box.overlaps(near); });
    return some;
}

/// Lines have a thickness, and letters want air.
void FreePlaces::take(const std::vector<Spot>& path) {
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const Spot a = path[i];
        const Spot b = path[i + 1];
        taken_.push_back(
            {std::min(a.x, b.x) - 2, std::min(a.y, b.y) - 1, std::max(a.x, b.x) + 2, std::max(a.y, b.y) + 1});
    }
}

}  // namespace halfsplit::view::diagram
