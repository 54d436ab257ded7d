#include "ui/window/paper/page.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "engine/base/index.h"
#include "ui/view/diagram/pages/pages.h"

namespace halfsplit::window {

using view::diagram::Box;
using view::diagram::Diagram;
using view::diagram::Spot;

namespace {

double distance(const Spot& from, const Spot& to, double x, double y) {
    const double dx = to.x - from.x;
    const double dy = to.y - from.y;
    const double length = dx * dx + dy * dy;
    const double share =
        length == 0 ? 0 : std::clamp(((x - from.x) * dx + (y - from.y) * dy) / length, 0.0, 1.0);
    return std::hypot(x - from.x - share * dx, y - from.y - share * dy);
}

double distance(const std::vector<Spot>& path, double x, double y) {
    double least = 1e9;
    for (std::size_t i = 1; i < path.size(); ++i)
        least = std::min(least, distance(path[i - 1], path[i], x, y));
    return least;
}

/// The nearest of what lies within reach.
class Nearest {
  public:
    Nearest(Pick::Kind kind, double reach) : kind_(kind), reach_(reach) {}
    void offer(const std::string& name, double distance) {
        if (distance > reach_) return;
        reach_ = distance;
        pick_ = Pick{kind_, name};
    }
    const std::optional<Pick>& pick() const { return pick_; }

  private:
    Pick::Kind kind_;
    double reach_;
    std::optional<Pick> pick_;
};

std::optional<Pick> point_at(const Diagram& diagram, double x, double y, double reach) {
    Nearest nearest(Pick::Kind::point, reach);
    for (const auto& symbol : diagram.symbols)
        for (const auto& terminal : symbol.terminals)
            nearest.offer(terminal.point, std::hypot(x - terminal.at.x, y - terminal.at.y));
    for (const auto& rail : diagram.rails) nearest.offer(rail.splice, distance(rail.path, x, y));
    return nearest.pick();
}

std::optional<Pick> part_at(const Diagram& diagram, double x, double y) {
    for (const auto& symbol : diagram.symbols)
        if (symbol.ink.left <= x && x <= symbol.ink.right && symbol.ink.top <= y && y <= symbol.ink.bottom)
            return Pick{Pick::Kind::part, symbol.part};
    for (const auto& label : diagram.labels)
        if (!label.owner.empty() && label.role != view::diagram::Label::Role::wire &&
            label.role != view::diagram::Label::Role::reference && label.box.left <= x &&
            x <= label.box.right && label.box.top <= y && y <= label.box.bottom)
            for (const auto& symbol : diagram.symbols)
                if (symbol.part == label.owner) return Pick{Pick::Kind::part, label.owner};
    return std::nullopt;
}

std::optional<Pick> wire_at(const Diagram& diagram, double x, double y, double reach) {
    Nearest nearest(Pick::Kind::wire, reach);
    for (const auto& wire : diagram.wires) nearest.offer(wire.wire, distance(wire.path, x, y));
    return nearest.pick();
}

std::optional<Spot> middle_of(const std::vector<Spot>& path) {
    if (path.empty()) return std::nullopt;
    if (path.size() == 1) return path.front();
    const std::size_t leg = (path.size() - 1) / 2;
    return Spot{(path[leg].x + path[leg + 1].x) / 2, (path[leg].y + path[leg + 1].y) / 2};
}

std::optional<Spot> spot_of(const Diagram& diagram, const Pick& pick) {
    if (pick.kind == Pick::Kind::wire) {
        for (const auto& wire : diagram.wires)
            if (wire.wire == pick.name) return middle_of(wire.path);
        return std::nullopt;
    }
    for (const auto& symbol : diagram.symbols) {
        if (pick.kind == Pick::Kind::part && symbol.part == pick.name)
            return Spot{(symbol.ink.left + symbol.ink.right) / 2, (symbol.ink.top + symbol.ink.bottom) / 2};
        if (pick.kind == Pick::Kind::point)
            for (const auto& terminal : symbol.terminals)
                if (terminal.point == pick.name) return terminal.at;
    }
    for (const auto& rail : diagram.rails)
        if (rail.splice == pick.name) return middle_of(rail.path);
    return std::nullopt;
}

std::optional<Found> find_on(const DrawnCircuit& drawn, const Pick& pick, int page) {
    const auto spot = spot_of(drawn.pages[at(page)].diagram, pick);
    if (!spot) return std::nullopt;
    return Found{page, static_cast<double>(spot->x), static_cast<double>(spot->y), pick};
}

std::string lower(std::string text) {
    std::ranges::transform(text, text.begin(),
                           [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return text;
}

/// 0 the same, 1 begins so, 2 contains it, 3 its title does; -1 not at all.
int likeness(const std::string& id, const std::string& title, const std::string& words) {
    const std::string name = lower(id);
    if (name == words) return 0;
    if (name.starts_with(words)) return 1;
    if (name.find(words) != std::string::npos) return 2;
    return lower(title).find(words) != std::string::npos ? 3 : -1;
}

}  // namespace

DrawnCircuit drawn(std::shared_ptr<const model::Circuit> circuit) {
    DrawnCircuit result{std::move(circuit), {}};
    std::vector<view::diagram::Page> pages = view::diagram::pages_of(*result.circuit);
    for (std::size_t number = 0; number < pages.size(); ++number) {
        const std::string before = pages.size() > 1 ? std::to_string(number + 1) + "  " : "";
        result.pages.push_back(
            {before + pages[number].title, std::move(pages[number].diagram), pages[number].is_map});
    }
    return result;
}

std::optional<Pick> pick_at(const Diagram& diagram, double x, double y, double reach) {
    if (auto point = point_at(diagram, x, y, reach)) return point;
    if (auto part = part_at(diagram, x, y)) return part;
    return wire_at(diagram, x, y, reach);
}

std::optional<Found> find_drawn(const DrawnCircuit& drawn, const Pick& pick, int prefer_page) {
    const int count = static_cast<int>(drawn.pages.size());
    if (prefer_page >= 0 && prefer_page < count)
        if (auto found = find_on(drawn, pick, prefer_page)) return found;
    for (const bool among_maps : {false, true})
        for (int page = 0; page < count; ++page)
            if (drawn.pages[at(page)].is_map == among_maps)
                if (auto found = find_on(drawn, pick, page)) return found;
    return std::nullopt;
}

std::optional<Found> find_further(const DrawnCircuit& drawn, const Pick& pick, int page) {
    const int count = static_cast<int>(drawn.pages.size());
    for (int step = 1; step < count; ++step)
        if (auto found = find_on(drawn, pick, (page + step) % count)) return found;
    return std::nullopt;
}

std::optional<Found> target_of(const DrawnCircuit& drawn, const view::diagram::Label& reference) {
    if (reference.page < 0 || reference.page >= static_cast<int>(drawn.pages.size())) return std::nullopt;
    for (const Pick::Kind kind : {Pick::Kind::point, Pick::Kind::part})
        if (auto found = find_on(drawn, {kind, reference.leads_to}, reference.page)) return found;
    // A part of which only another pin is drawn there.
    const std::string part(model::split_point(reference.leads_to).part);
    return find_on(drawn, {Pick::Kind::part, part}, reference.page);
}

std::optional<Found> reference_at(const DrawnCircuit& drawn, int page, double x, double y) {
    for (const view::diagram::Label& label : drawn.pages[at(page)].diagram.labels)
        if (label.role == view::diagram::Label::Role::reference && label.box.left <= x &&
            x <= label.box.right && label.box.top <= y && y <= label.box.bottom)
            return target_of(drawn, label);
    return std::nullopt;
}

std::vector<Found> search(const DrawnCircuit& drawn, const std::string& words, std::size_t most) {
    const std::string wanted = lower(words);
    std::multimap<int, Pick> likely;
    if (wanted.empty()) return {};
    for (const model::Part& part : drawn.circuit->parts)
        if (const int how = likeness(part.id, part.title, wanted); how >= 0)
            likely.emplace(how, Pick{Pick::Kind::part, part.id});
    for (const model::Wire& wire : drawn.circuit->wires)
        if (const int how = likeness(wire.id, "", wanted); how >= 0)
            likely.emplace(how, Pick{Pick::Kind::wire, wire.id});
    // Points only where somebody has written so much of one that few are meant.
    if (wanted.find('.') != std::string::npos)
        for (int part = 0; part < static_cast<int>(drawn.circuit->parts.size()); ++part)
            for (int pin = 0; pin < static_cast<int>(drawn.circuit->parts[at(part)].pins.size()); ++pin) {
                const std::string point = drawn.circuit->point_name({part, pin});
                if (const int how = likeness(point, "", wanted); how == 0 || how == 1)
                    likely.emplace(how, Pick{Pick::Kind::point, point});
            }
    std::vector<Found> results;
    for (const auto& [how, pick] : likely) {
        if (results.size() == most) break;
        if (auto found = find_drawn(drawn, pick, -1)) results.push_back(std::move(*found));
    }
    return results;
}

}  // namespace halfsplit::window
