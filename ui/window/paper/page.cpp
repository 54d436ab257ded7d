#include "ui/window/paper/page.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <set>

#include "engine/base/index.h"
#include "ui/view/diagram/layout.h"

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
        if (!label.owner.empty() && label.role != view::diagram::Label::Role::wire && label.box.left <= x &&
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

/// Parts of each file of a circuit that includes others, and the wires between them.
std::vector<std::pair<std::string, view::diagram::Selection>> by_file(const model::Circuit& circuit) {
    std::vector<std::pair<std::string, view::diagram::Selection>> pages;
    for (const std::string& file : circuit.files) {
        std::set<int> parts;
        for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
            if (circuit.parts[at(part)].where.file == file) parts.insert(part);
        if (parts.empty()) continue;
        view::diagram::Selection selection;
        // What a wire of this page leads to is drawn as well, so that no wire ends nowhere.
        for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire) {
            const model::Wire& each = circuit.wires[at(wire)];
            if (each.where.file != file && !(parts.contains(each.from.part) && parts.contains(each.to.part)))
                continue;
            selection.wires.push_back(wire);
        }
        for (const int wire : selection.wires) {
            parts.insert(circuit.wires[at(wire)].from.part);
            parts.insert(circuit.wires[at(wire)].to.part);
        }
        selection.parts.assign(parts.begin(), parts.end());
        const std::size_t slash = file.find_last_of('/');
        std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
        if (const std::size_t dot = name.find('.'); dot != std::string::npos) name.resize(dot);
        pages.emplace_back(name, std::move(selection));
    }
    return pages;
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
    constexpr std::size_t kOnePage = 150;
    DrawnCircuit result{std::move(circuit), {}};
    const model::Circuit& own = *result.circuit;
    const auto files = by_file(own);
    if (files.size() < 2 || own.parts.size() < kOnePage) {
        result.pages.push_back({own.title, view::diagram::lay_out(own)});
        return result;
    }
    for (const auto& [name, selection] : files)
        result.pages.push_back({name, view::diagram::lay_out(own, selection)});
    return result;
}

std::optional<Pick> pick_at(const Diagram& diagram, double x, double y, double reach) {
    if (auto point = point_at(diagram, x, y, reach)) return point;
    if (auto part = part_at(diagram, x, y)) return part;
    return wire_at(diagram, x, y, reach);
}

std::optional<Found> find_drawn(const DrawnCircuit& drawn, const Pick& pick, int prefer_page) {
    std::optional<Found> found;
    for (int page = 0; page < static_cast<int>(drawn.pages.size()); ++page) {
        const auto spot = spot_of(drawn.pages[at(page)].diagram, pick);
        if (!spot || (found && page != prefer_page)) continue;
        found = Found{page, static_cast<double>(spot->x), static_cast<double>(spot->y), pick};
        if (page == prefer_page) break;
    }
    return found;
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
        if (auto found = find_drawn(drawn, pick, 0)) results.push_back(std::move(*found));
    }
    return results;
}

}  // namespace halfsplit::window
