#include "ui/window/paper/draw_marks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <string>
#include <vector>

#include "ui/window/frame/colours.h"
#include "ui/window/paper/draw_leads.h"
#include "ui/window/paper/plates.h"

namespace halfsplit::window {

using view::diagram::Box;
using view::diagram::Diagram;
using view::diagram::Spot;

namespace {

/// An arrow head in the middle of a wire, pointing as the current flows.
void draw_flow(const Pencil& pencil, const std::vector<Spot>& path, bool forwards) {
    std::size_t longest = 0;
    double length = 0;
    for (std::size_t i = 1; i < path.size(); ++i) {
        const double leg = std::hypot(path[i].x - path[i - 1].x, path[i].y - path[i - 1].y);
        if (leg > length) {
            length = leg;
            longest = i;
        }
    }
    if (longest == 0 || length < 6) return;
    Spot from = path[longest - 1];
    Spot to = path[longest];
    if (!forwards) std::swap(from, to);
    const double dx = (to.x - from.x) / length;
    const double dy = (to.y - from.y) / length;
    const double x = (from.x + to.x) / 2.0;
    const double y = (from.y + to.y) / 2.0;
    constexpr double kHead = 3.2;
    pencil.list().AddTriangleFilled(
        pencil.on_screen(x + dx * kHead, y + dy * kHead),
        pencil.on_screen(x - dx * kHead - dy * kHead * 0.8, y - dy * kHead + dx * kHead * 0.8),
        pencil.on_screen(x - dx * kHead + dy * kHead * 0.8, y - dy * kHead - dx * kHead * 0.8),
        packed(pencil.frame().theme.ink));
}

void draw_look(const Pencil& pencil, const Box& ink, const PartLook& look) {
    if (look.glow <= 0.005) return;
    const double share = std::clamp(look.glow, 0.0, 1.0);
    const double away = 2 + 5 * share;
    pencil.list().AddRectFilled(pencil.on_screen(ink.left - away, ink.top - away),
                                pencil.on_screen(ink.right + away, ink.bottom + away),
                                packed(pencil.frame().theme.glow, 0.25 + 0.6 * share), pencil.px(away));
}

/// A pointer that goes round with the shaft.
void draw_turn(const Pencil& pencil, const Box& ink, double turns) {
    const double x = (ink.left + ink.right) / 2.0;
    const double y = (ink.top + ink.bottom) / 2.0;
    const double radius = std::min(ink.width(), ink.height()) / 2.0;
    const double angle = 2 * std::numbers::pi * turns;
    pencil.list().AddLine(pencil.on_screen(x, y),
                          pencil.on_screen(x + radius * std::sin(angle), y - radius * std::cos(angle)),
                          packed(pencil.frame().theme.mark), std::max(2.0F, pencil.px(1.2)));
}

/// About the part, and about the points that this symbol of it has. A ground point is both in one.
std::vector<std::string> doubts_about(const view::diagram::Symbol& symbol, const Marks& marks) {
    std::set<std::string> names{symbol.part};
    for (const auto& terminal : symbol.terminals) names.insert(terminal.point);
    std::vector<std::string> texts;
    for (const std::string& name : names)
        if (const auto found = marks.doubts.find(name); found != marks.doubts.end())
            texts.push_back(found->second);
    return texts;
}

/// In the order of their importance: what comes first finds room first.
void draw_parts_above(const Pencil& pencil, FreeRoom& room, const Diagram& diagram, const Marks& marks) {
    const Colour caution = pencil.frame().theme.caution;
    for (const auto& symbol : diagram.symbols) {
        if (const auto away = marks.away.find(symbol.part); away != marks.away.end()) {
            pencil.list().AddLine(pencil.on_screen(symbol.ink.left, symbol.ink.top),
                                  pencil.on_screen(symbol.ink.right, symbol.ink.bottom), packed(caution),
                                  pencil.frame().px(2));
            write_near(pencil, room, symbol.ink, away->second, caution, NoRoom::cover);
        }
        for (const std::string& doubt : doubts_about(symbol, marks)) {
            pencil.frame_around(symbol.ink, caution, 2);
            write_near(pencil, room, symbol.ink, doubt, caution, NoRoom::cover);
        }
    }
    for (const auto& note : marks.notes)
        for (const Spot& at : spots_of(diagram, note.first))
            write_near(pencil, room, {at.x - 2, at.y - 2, at.x + 2, at.y + 2}, note.second,
                       pencil.frame().theme.text, NoRoom::cover);
    for (const auto& symbol : diagram.symbols) {
        const auto look = marks.parts.find(symbol.part);
        if (look == marks.parts.end()) continue;
        if (look->second.turn != 0) draw_turn(pencil, symbol.ink, look->second.turn);
        if (!look->second.words.empty())
            write_near(pencil, room, symbol.ink, look->second.words, pencil.frame().theme.text,
                       NoRoom::leave_out);
    }
}

void draw_wires_above(const Pencil& pencil, FreeRoom& room, const Diagram& diagram, const Marks& marks) {
    for (const auto& wire : diagram.wires) {
        if (const auto look = marks.wires.find(wire.wire); look != marks.wires.end())
            if (std::abs(look->second.flow) > 1e-3) draw_flow(pencil, wire.path, look->second.flow > 0);
        if (const auto doubt = marks.doubts.find(wire.wire);
            doubt != marks.doubts.end() && !wire.path.empty()) {
            pencil.path(wire.path, pencil.frame().theme.caution, 1.2);
            const Spot middle = wire.path[wire.path.size() / 2];
            write_near(pencil, room, {middle.x - 2, middle.y - 2, middle.x + 2, middle.y + 2}, doubt->second,
                       pencil.frame().theme.caution, NoRoom::cover);
        }
    }
}

/// 0: the way does not pass it. Of a part with several symbols it passes those whose points it passes.
int number_on_way(const view::diagram::Symbol& symbol, const std::map<std::string, int>& way) {
    if (!way.contains(symbol.part)) return 0;
    for (const auto& terminal : symbol.terminals)
        if (const auto number = way.find(terminal.point); number != way.end()) return number->second;
    return 0;
}

/// Sleepers across the wires of a way, as of a railway, and its numbers: it is seen without colours.
void draw_way(const Pencil& pencil, FreeRoom& room, const Diagram& diagram, const Marks& marks) {
    constexpr double kEvery = 6;
    constexpr double kHalf = 2.2;
    const Colour colour = pencil.frame().theme.mark;
    for (const auto& wire : diagram.wires) {
        if (!marks.way.contains(wire.wire)) continue;
        for (std::size_t i = 1; i < wire.path.size(); ++i) {
            const Spot& from = wire.path[i - 1];
            const double dx = wire.path[i].x - from.x;
            const double dy = wire.path[i].y - from.y;
            const double length = std::hypot(dx, dy);
            for (double along = kEvery / 2; along < length; along += kEvery) {
                const double x = from.x + dx * along / length;
                const double y = from.y + dy * along / length;
                const double across_x = kHalf * dy / length;
                const double across_y = kHalf * dx / length;
                pencil.list().AddLine(pencil.on_screen(x - across_x, y - across_y),
                                      pencil.on_screen(x + across_x, y + across_y), packed(colour),
                                      std::max(1.5F, pencil.px(0.8)));
            }
        }
    }
    for (const auto& symbol : diagram.symbols) {
        const int number = number_on_way(symbol, marks.way);
        if (number == 0) continue;
        pencil.frame_around(symbol.ink, colour, 1);
        write_near(pencil, room, symbol.ink, "(" + std::to_string(number) + ")", colour, NoRoom::leave_out);
    }
}

/// All that must not be covered: letters and symbols.
FreeRoom room_beside(const Pencil& pencil, const Viewport& viewport, const Diagram& diagram) {
    FreeRoom room(viewport.screen());
    const auto take = [&](const Box& box) {
        const ImVec2 from = pencil.on_screen(box.left, box.top);
        const ImVec2 to = pencil.on_screen(box.right, box.bottom);
        room.take({from.x, from.y, to.x, to.y});
    };
    for (const auto& label : diagram.labels) take(label.box);
    for (const auto& symbol : diagram.symbols) take(symbol.ink);
    return room;
}

void write_at_wires(const Pencil& pencil, FreeRoom& room, const Diagram& diagram, const Marks& marks) {
    constexpr double kNearPx = 90;
    Said said(pencil.frame().px(kNearPx));
    for (const auto& wire : diagram.wires)
        if (const auto look = marks.wires.find(wire.wire);
            look != marks.wires.end() && !look->second.words.empty())
            write_beside(pencil, room, said, wire.path, look->second.words);
}

void draw_chosen(const Pencil& pencil, const Diagram& diagram, const Pick& chosen) {
    const Colour colour = pencil.frame().theme.mark;
    if (chosen.kind == Pick::Kind::part)
        for (const auto& symbol : diagram.symbols)
            if (symbol.part == chosen.name) pencil.frame_around(symbol.ink, colour, 3);
    if (chosen.kind == Pick::Kind::wire)
        for (const auto& wire : diagram.wires)
            if (wire.wire == chosen.name) pencil.path(wire.path, colour, 2.2);
    if (chosen.kind == Pick::Kind::point)
        for (const Spot& at : spots_of(diagram, chosen.name))
            pencil.list().AddCircle(pencil.on_screen(at.x, at.y), std::max(pencil.px(3.5), 6.0F),
                                    packed(colour), 0, pencil.frame().px(2));
}

}  // namespace

void draw_marks_below(ImDrawList& list, const Viewport& viewport, const Frame& frame, const Diagram& diagram,
                      const Marks& marks) {
    const Pencil pencil(list, viewport, frame);
    for (const auto& symbol : diagram.symbols)
        if (const auto look = marks.parts.find(symbol.part); look != marks.parts.end())
            draw_look(pencil, symbol.ink, look->second);
    // A band beside the wire, whose own colour must be seen, on the side where its letters are not.
    constexpr double kBand = 2;
    constexpr double kAway = 1.6;
    const auto underlay = [&](const std::string& name, const std::vector<Spot>& path) {
        if (const auto look = marks.wires.find(name); look != marks.wires.end())
            pencil.path(path, potential_colour(look->second.potential_share), kBand, kAway);
    };
    for (const auto& wire : diagram.wires) underlay(wire.wire, wire.path);
    for (const auto& rail : diagram.rails) underlay(rail.splice, rail.path);
}

void draw_marks_above(ImDrawList& list, const Viewport& viewport, const Frame& frame, const Diagram& diagram,
                      const Marks& marks) {
    const Pencil pencil(list, viewport, frame);
    FreeRoom room = room_beside(pencil, viewport, diagram);
    take_lead_room(pencil, room, diagram, marks.leads);
    draw_wires_above(pencil, room, diagram, marks);
    draw_way(pencil, room, diagram, marks);
    draw_parts_above(pencil, room, diagram, marks);
    write_at_wires(pencil, room, diagram, marks);
    if (marks.chosen) draw_chosen(pencil, diagram, *marks.chosen);
    draw_leads(pencil, diagram, marks.leads);
}

}  // namespace halfsplit::window
