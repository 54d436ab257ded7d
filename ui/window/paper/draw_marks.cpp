#include "ui/window/paper/draw_marks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "ui/view/diagram/text_metrics.h"
#include "ui/window/frame/colours.h"
#include "ui/window/paper/free_room.h"

namespace halfsplit::window {

using view::diagram::Box;
using view::diagram::Diagram;
using view::diagram::Spot;

namespace {

/// Draws in the diagram's coordinates.
class Pencil {
  public:
    Pencil(ImDrawList& list, const Viewport& viewport, const Frame& frame)
        : list_(list), viewport_(viewport), frame_(frame) {}

    ImVec2 on_screen(double x, double y) const { return {viewport_.x_px(x), viewport_.y_px(y)}; }
    float px(double units) const { return static_cast<float>(units * viewport_.px_per_unit()); }
    const Frame& frame() const { return frame_; }
    ImDrawList& list() const { return list_; }

    /// `away`: drawn so far to the left and above.
    void path(const std::vector<Spot>& spots, Colour colour, double width, double away = 0) const {
        std::vector<ImVec2> points;
        points.reserve(spots.size());
        for (const Spot& spot : spots) points.push_back(on_screen(spot.x - away, spot.y - away));
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), packed(colour), 0,
                          std::max(2.0F, px(width)));
    }

    void frame_around(const Box& box, Colour colour, double away) const {
        list_.AddRect(on_screen(box.left - away, box.top - away),
                      on_screen(box.right + away, box.bottom + away), packed(colour), px(1.5), 0,
                      std::max(2.0F, frame_.px(2)));
    }

    /// How much room a plate takes whose left middle is at this pixel.
    ScreenBox plate_box(ImVec2 left, const std::string& words) const {
        const ImVec2 extent = frame_.fonts.text->CalcTextSizeA(letters_px(), 1e6F, 0, words.c_str());
        return {left.x, left.y - extent.y / 2 - 1, left.x + extent.x + frame_.px(6),
                left.y + extent.y / 2 + 1};
    }

    /// A line of text on a plate of its own, its left middle at the place; readable at any zoom.
    void plate(double x, double y, const std::string& words, Colour letters) const {
        plate(plate_box(on_screen(x, y), words), words, letters);
    }

    void plate(const ScreenBox& box, const std::string& words, Colour letters) const {
        list_.AddRectFilled({box.left, box.top}, {box.right, box.bottom}, packed(frame_.theme.note, 0.92),
                            frame_.px(2));
        list_.AddRect({box.left, box.top}, {box.right, box.bottom},
                      packed(mixed(frame_.theme.note, frame_.theme.text, 0.4)), frame_.px(2));
        list_.AddText(frame_.fonts.text, letters_px(), {box.left + frame_.px(3), box.top + 1},
                      packed(letters), words.c_str());
    }

    float letters_px() const { return frame_.px(13); }

  private:
    ImDrawList& list_;
    const Viewport& viewport_;
    const Frame& frame_;
};

void draw_lead(const Pencil& pencil, const LeadMark& lead, Spot at, int number_there) {
    const Theme& theme = pencil.frame().theme;
    const Colour colour = lead.pole == LeadMark::Pole::positive   ? theme.positive
                          : lead.pole == LeadMark::Pole::negative ? theme.negative
                                                                  : theme.mark;
    const float size = pencil.frame().px(13);
    const ImVec2 tip = pencil.on_screen(at.x, at.y);
    // A tip that comes from the upper right, a second one at the same point from the upper left.
    const float side = number_there % 2 == 0 ? 1.0F : -1.0F;
    const ImVec2 grip{tip.x + side * size * 1.5F, tip.y - size * 1.5F};
    pencil.list().AddLine(tip, grip, packed(theme.paper), pencil.frame().px(6));
    pencil.list().AddLine(tip, grip, packed(colour), pencil.frame().px(3));
    pencil.list().AddCircleFilled(grip, size * 0.8F, packed(colour));
    pencil.list().AddCircle(grip, size * 0.8F, packed(theme.paper), 0, 1.5F);
    ImFont* font = pencil.frame().fonts.text;
    const ImVec2 extent = font->CalcTextSizeA(size, 1e6F, 0, lead.letter.c_str());
    pencil.list().AddText(font, size, {grip.x - extent.x / 2, grip.y - extent.y / 2}, packed(theme.paper),
                          lead.letter.c_str());
}

template <class Do>
void at_point(const Diagram& diagram, const std::string& point, const Do& act) {
    for (const auto& symbol : diagram.symbols)
        for (const auto& terminal : symbol.terminals)
            if (terminal.point == point) {
                act(terminal.at);
                return;
            }
    for (const auto& rail : diagram.rails)
        if (rail.splice == point && !rail.path.empty()) {
            act(rail.path.front());
            return;
        }
}

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

/// Beside the symbol where there is room; over it where there is none.
void write_at(const Pencil& pencil, FreeRoom& room, const Box& ink, const std::string& words) {
    const double middle = (ink.top + ink.bottom) / 2.0;
    const ScreenBox left = pencil.plate_box(pencil.on_screen(ink.left, middle), words);
    const float width = left.right - left.left;
    const float away = pencil.frame().px(3);
    const ImVec2 right_end = pencil.on_screen(ink.right, middle);
    const std::array tries{
        pencil.plate_box({left.left - width - away, right_end.y}, words),
        pencil.plate_box({right_end.x + away, right_end.y}, words),
        pencil.plate_box({left.left - width - away, pencil.on_screen(0, ink.bottom).y}, words),
        pencil.plate_box({right_end.x + away, pencil.on_screen(0, ink.bottom).y}, words),
        pencil.plate_box({left.left - width - away, pencil.on_screen(0, ink.top).y}, words),
        pencil.plate_box(pencil.on_screen(ink.left, ink.bottom - 3), words)};
    const auto free = std::ranges::find_if(tries, [&](const ScreenBox& box) { return room.is_free(box); });
    const ScreenBox& box = free == tries.end() ? tries.back() : *free;
    pencil.plate(box, words, pencil.frame().theme.text);
    room.take(box);
}

void draw_parts_above(const Pencil& pencil, FreeRoom& room, const Diagram& diagram, const Marks& marks) {
    for (const auto& symbol : diagram.symbols) {
        if (const auto look = marks.parts.find(symbol.part); look != marks.parts.end()) {
            if (look->second.turn != 0) draw_turn(pencil, symbol.ink, look->second.turn);
            if (!look->second.words.empty()) write_at(pencil, room, symbol.ink, look->second.words);
        }
        if (const auto away = marks.away.find(symbol.part); away != marks.away.end()) {
            pencil.list().AddLine(pencil.on_screen(symbol.ink.left, symbol.ink.top),
                                  pencil.on_screen(symbol.ink.right, symbol.ink.bottom),
                                  packed(pencil.frame().theme.caution), pencil.frame().px(2));
            pencil.plate(symbol.ink.left, symbol.ink.top + 3, away->second, pencil.frame().theme.caution);
        }
        if (const auto doubt = marks.doubts.find(symbol.part); doubt != marks.doubts.end()) {
            pencil.frame_around(symbol.ink, pencil.frame().theme.caution, 2);
            pencil.plate(symbol.ink.left, (symbol.ink.top + symbol.ink.bottom) / 2.0, doubt->second,
                         pencil.frame().theme.caution);
        }
    }
}

void draw_wires_above(const Pencil& pencil, const Diagram& diagram, const Marks& marks) {
    for (const auto& wire : diagram.wires) {
        if (const auto look = marks.wires.find(wire.wire); look != marks.wires.end())
            if (std::abs(look->second.flow) > 1e-3) draw_flow(pencil, wire.path, look->second.flow > 0);
        if (const auto doubt = marks.doubts.find(wire.wire);
            doubt != marks.doubts.end() && !wire.path.empty()) {
            pencil.path(wire.path, pencil.frame().theme.caution, 1.2);
            const Spot middle = wire.path[wire.path.size() / 2];
            pencil.plate(middle.x, middle.y, doubt->second, pencil.frame().theme.caution);
        }
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

/// What has been written where: the same number close by says nothing new.
class Said {
  public:
    explicit Said(float near_px) : near_px_(near_px) {}
    void add(const ScreenBox& box, const std::string& words) { boxes_.emplace(words, box); }
    bool is_near(const ScreenBox& box, const std::string& words) const {
        const auto [first, last] = boxes_.equal_range(words);
        return std::any_of(first, last, [&](const auto& each) {
            return std::hypot(each.second.left - box.left, each.second.top - box.top) < near_px_;
        });
    }

  private:
    float near_px_;
    std::multimap<std::string, ScreenBox> boxes_;
};

/// Beside the wire, to the right of it or to the left, wherever along it there is room. Not at all where
/// there is none: coming closer makes room.
void write_beside(const Pencil& pencil, FreeRoom& room, Said& said, const std::vector<Spot>& path,
                  const std::string& words) {
    constexpr double kStep = 7;
    constexpr float kAwayPx = 4;
    for (std::size_t i = 1; i < path.size(); ++i) {
        const double length = std::hypot(path[i].x - path[i - 1].x, path[i].y - path[i - 1].y);
        for (double along = kStep / 2; along < length; along += kStep) {
            const double share = along / length;
            const ImVec2 on_wire = pencil.on_screen(path[i - 1].x + share * (path[i].x - path[i - 1].x),
                                                    path[i - 1].y + share * (path[i].y - path[i - 1].y));
            const float away = pencil.frame().px(kAwayPx);
            const ScreenBox right = pencil.plate_box({on_wire.x + away, on_wire.y}, words);
            const float width = right.right - right.left;
            const float height = right.bottom - right.top;
            const bool is_level = path[i].y == path[i - 1].y;
            const ScreenBox other = is_level
                                        ? pencil.plate_box({on_wire.x, on_wire.y - height / 2 - away}, words)
                                        : pencil.plate_box({on_wire.x - away - width, on_wire.y}, words);
            for (const ScreenBox& box : {is_level ? other : right, other}) {
                if (!room.is_free(box)) continue;
                if (said.is_near(box, words)) return;
                pencil.plate(box, words, pencil.frame().theme.text);
                room.take(box);
                said.add(box, words);
                return;
            }
        }
    }
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
        at_point(diagram, chosen.name, [&](Spot at) {
            pencil.list().AddCircle(pencil.on_screen(at.x, at.y), std::max(pencil.px(3.5), 6.0F),
                                    packed(colour), 0, pencil.frame().px(2));
        });
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
    draw_wires_above(pencil, diagram, marks);
    FreeRoom room = room_beside(pencil, viewport, diagram);
    draw_parts_above(pencil, room, diagram, marks);
    write_at_wires(pencil, room, diagram, marks);
    for (const auto& note : marks.notes)
        at_point(diagram, note.first,
                 [&](Spot at) { pencil.plate(at.x + 2, at.y, note.second, frame.theme.text); });
    if (marks.chosen) draw_chosen(pencil, diagram, *marks.chosen);
    std::map<std::string, int> there;
    for (const LeadMark& lead : marks.leads)
        at_point(diagram, lead.point, [&](Spot at) { draw_lead(pencil, lead, at, there[lead.point]++); });
}

}  // namespace halfsplit::window
