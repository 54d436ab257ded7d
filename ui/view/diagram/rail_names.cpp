#include "ui/view/diagram/rail_names.h"

#include <algorithm>
#include <cstdlib>

#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

/// Everything a name must keep clear of.
class Ground {
  public:
    explicit Ground(const Diagram& diagram) {
        for (const Symbol& symbol : diagram.symbols) taken_.push_back(symbol.ink);
        for (const Label& label : diagram.labels) taken_.push_back(label.box);
        for (const WireLine& wire : diagram.wires) take(wire.path);
        for (const Rail& rail : diagram.rails) take(rail.path);
        for (const MotionLink& link : diagram.links)
            for (const auto& path : link.paths) take(path);
    }

    bool is_free(const Box& box) const {
        return std::none_of(taken_.begin(), taken_.end(),
                            [&](const Box& other) { return box.overlaps(other); });
    }
    void take(const Box& box) { taken_.push_back(box); }

  private:
    /// Lines have a thickness, and letters want air.
    void take(const std::vector<Spot>& path) {
        for (std::size_t i = 0; i + 1 < path.size(); ++i) {
            const Spot a = path[i];
            const Spot b = path[i + 1];
            taken_.push_back({std::min(a.x, b.x) - 2, std::min(a.y, b.y) - 1, std::max(a.x, b.x) + 2,
                              std::max(a.y, b.y) + 1});
        }
    }

    std::vector<Box> taken_;
};

constexpr int kFurthest = 400;  // units the search goes from the rail before it takes any place at all
constexpr int kStep = 2;

/// Places on one level, the nearest to the rail's left end first.
bool place_at_level(const Ground& ground, const RailName& name, int top, int width, int reach, Box& box) {
    const auto works = [&](int left) {
        box = {left, top, left + width, top + kLineHeight};
        return ground.is_free(box);
    };
    for (int left = name.left + 2; left + width <= name.right; left += kStep)
        if (works(left)) return true;
    for (int away = 0; away <= reach; away += kStep)
        if (works(name.left - 2 - width - away) || works(name.right + 2 + away)) return true;
    return false;
}

Box place_of(const Ground& ground, const RailName& name, int width) {
    Box box;
    const int above = name.y - kLineHeight - 1;
    const int beside = name.y - kLineHeight / 2;
    const int below = name.y + 2;
    for (int reach = 0; reach <= kFurthest; reach += 10)
        for (const int top : {above, beside, below, above - reach / 4, below + reach / 4})
            if (place_at_level(ground, name, top, width, reach, box)) return box;
    return box;
}

}  // namespace

void name_rails(Diagram& diagram, const std::vector<RailName>& names) {
    Ground ground(diagram);
    for (const RailName& name : names) {
        const std::string text = name.see.empty() ? name.splice : name.splice + " (" + name.see + ")";
        const Box box = place_of(ground, name, text_width(text));
        ground.take(box);
        diagram.labels.push_back({text, Label::Role::rail, name.splice, box});
    }
}

}  // namespace halfsplit::view::diagram
