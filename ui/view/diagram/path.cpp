#include "ui/view/diagram/path.h"

#include <algorithm>

namespace halfsplit::view::diagram {

namespace {

/// Calls `visit` with every spot of the drawing.
template <class Drawing, class Visit>
void for_each_spot(Drawing& diagram, const Visit& visit) {
    for (auto& symbol : diagram.symbols)
        for (auto& terminal : symbol.terminals) visit(terminal.at);
    for (auto& wire : diagram.wires)
        for (auto& spot : wire.path) visit(spot);
    const auto visit_paths = [&](auto& paths) {
        for (auto& path : paths)
            for (auto& spot : path) visit(spot);
    };
    for (auto& rail : diagram.rails)
        for (auto& spot : rail.path) visit(spot);
    for (auto& link : diagram.links) visit_paths(link.paths);
    for (auto& dot : diagram.dots) visit(dot.at);
}

}  // namespace

void Path::add(Spot spot) {
    if (!spots_.empty() && spots_.back() == spot) return;
    if (spots_.size() >= 2) {
        const Spot before = spots_[spots_.size() - 2];
        const Spot last = spots_.back();
        const bool is_straight =
            (before.x == last.x && last.x == spot.x) || (before.y == last.y && last.y == spot.y);
        if (is_straight) spots_.pop_back();
    }
    spots_.push_back(spot);
}

void Path::add(const std::vector<Spot>& spots) {
    for (const Spot spot : spots) add(spot);
}

Box moved(const Box& box, Spot by) {
    return {box.left + by.x, box.top + by.y, box.right + by.x, box.bottom + by.y};
}

Box extent(const Diagram& diagram) {
    Box box{1 << 30, 1 << 30, -(1 << 30), -(1 << 30)};
    bool any = false;
    const auto include = [&](const Box& part) {
        any = true;
        box = {std::min(box.left, part.left), std::min(box.top, part.top), std::max(box.right, part.right),
               std::max(box.bottom, part.bottom)};
    };
    for_each_spot(diagram, [&](const Spot& spot) { include({spot.x, spot.y, spot.x, spot.y}); });
    for (const Symbol& symbol : diagram.symbols) include(symbol.ink);
    for (const Label& label : diagram.labels) include(label.box);
    return any ? box : Box{};
}

void move(Diagram& diagram, Spot by) {
    for_each_spot(diagram, [&](Spot& spot) { spot = {spot.x + by.x, spot.y + by.y}; });
    for (Symbol& symbol : diagram.symbols) symbol.ink = moved(symbol.ink, by);
    for (Label& label : diagram.labels) label.box = moved(label.box, by);
    diagram.bounds = moved(diagram.bounds, by);
}

}  // namespace halfsplit::view::diagram
