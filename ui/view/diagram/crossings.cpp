#include "ui/view/diagram/crossings.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

/// A straight piece of a line, and what it is joined with.
struct Stretch {
    int net = 0;
    Spot from;  ///< left or upper end
    Spot to;
};

/// Numbers for what is joined by common points.
class Nets {
  public:
    int of(const std::string& point) {
        const auto [found, is_new] = number_.try_emplace(point, static_cast<int>(above_.size()));
        if (is_new) above_.push_back(found->second);
        return root(found->second);
    }
    void join(const std::string& a, const std::string& b) {
        const int first = of(a);
        above_[at(of(b))] = first;
    }

  private:
    int root(int net) const {
        while (above_[at(net)] != net) net = above_[at(net)];
        return net;
    }

    std::map<std::string, int> number_;
    std::vector<int> above_;
};

struct Stretches {
    std::vector<Stretch> level;
    std::vector<Stretch> upright;

    void add(int net, const std::vector<Spot>& path) {
        for (std::size_t i = 0; i + 1 < path.size(); ++i) {
            const Spot a = path[i];
            const Spot b = path[i + 1];
            auto& where = a.y == b.y ? level : upright;
            where.push_back(
                {net, {std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}});
        }
    }
};

Stretches stretches_of(const Diagram& diagram) {
    Nets nets;
    for (const WireLine& wire : diagram.wires) nets.join(wire.from, wire.to);
    Stretches all;
    for (const WireLine& wire : diagram.wires) all.add(nets.of(wire.from), wire.path);
    for (const Rail& rail : diagram.rails) all.add(nets.of(rail.splice), rail.path);
    return all;
}

}  // namespace

int crossings(const Diagram& diagram) {
    const Stretches all = stretches_of(diagram);
    std::set<std::tuple<int, int, int, int>> places;
    for (const Stretch& level : all.level)
        for (const Stretch& upright : all.upright) {
            const Spot spot{upright.from.x, level.from.y};
            if (level.net != upright.net && level.from.x < spot.x && spot.x < level.to.x &&
                upright.from.y < spot.y && spot.y < upright.to.y)
                places.emplace(spot.x, spot.y, level.net, upright.net);
        }
    return static_cast<int>(places.size());
}

}  // namespace halfsplit::view::diagram
