#include "ui/window/paper/draw_leads.h"

#include <cmath>
#include <map>
#include <optional>

namespace halfsplit::window {

using view::diagram::Diagram;
using view::diagram::Spot;

namespace {

// At 100 %.
constexpr double kGripPx = 13;
constexpr double kClampPx = 8;

/// Where a lead is drawn.
struct LeadPlace {
    ImVec2 tip;
    ImVec2 grip;
    bool is_clamp = false;
    bool is_level = false;  ///< the wire that a clamp is around
};

/// The middle of a wire's longest leg.
std::optional<LeadPlace> clamp_place(const Pencil& pencil, const Diagram& diagram, const std::string& wire) {
    for (const auto& each : diagram.wires) {
        if (each.wire != wire || each.path.size() < 2) continue;
        std::size_t longest = 1;
        double length = 0;
        for (std::size_t i = 1; i < each.path.size(); ++i) {
            const double leg =
                std::hypot(each.path[i].x - each.path[i - 1].x, each.path[i].y - each.path[i - 1].y);
            if (leg <= length) continue;
            length = leg;
            longest = i;
        }
        const Spot& from = each.path[longest - 1];
        const Spot& to = each.path[longest];
        LeadPlace place;
        place.tip = pencil.on_screen((from.x + to.x) / 2.0, (from.y + to.y) / 2.0);
        place.is_clamp = true;
        place.is_level = from.y == to.y;
        return place;
    }
    return std::nullopt;
}

/// A tip comes from the upper right, a second one at the same place from the upper left, a third from below.
std::vector<LeadPlace> lead_places(const Pencil& pencil, const Diagram& diagram,
                                   const std::vector<LeadMark>& leads, std::vector<const LeadMark*>& whose) {
    std::vector<LeadPlace> places;
    std::map<std::string, int> there;
    for (const LeadMark& lead : leads) {
        std::optional<LeadPlace> place;
        if (const auto spots = spots_of(diagram, lead.point); !spots.empty()) {
            place.emplace();
            place->tip = pencil.on_screen(spots.front().x, spots.front().y);
        } else {
            place = clamp_place(pencil, diagram, lead.point);
        }
        if (!place) continue;
        const int number = there[lead.point]++;
        const float away = pencil.frame().px(kGripPx) * 1.5F;
        place->grip = {place->tip.x + (number % 2 == 0 ? away : -away),
                       place->tip.y + (number % 4 < 2 ? -away : away)};
        places.push_back(*place);
        whose.push_back(&lead);
    }
    return places;
}

void draw_clamp(const Pencil& pencil, const LeadPlace& place, Colour colour) {
    // Two jaws that meet around the wire.
    const float size = pencil.frame().px(kClampPx);
    const ImVec2 half = place.is_level ? ImVec2{size * 0.55F, size} : ImVec2{size, size * 0.55F};
    const ImVec2 from{place.tip.x - half.x, place.tip.y - half.y};
    const ImVec2 to{place.tip.x + half.x, place.tip.y + half.y};
    pencil.list().AddRect(from, to, packed(pencil.frame().theme.paper), size, 0, pencil.frame().px(6));
    pencil.list().AddRect(from, to, packed(colour), size, 0, pencil.frame().px(3));
}

void draw_lead(const Pencil& pencil, const LeadMark& lead, const LeadPlace& place) {
    const Theme& theme = pencil.frame().theme;
    const Colour colour = lead.pole == LeadMark::Pole::positive   ? theme.positive
                          : lead.pole == LeadMark::Pole::negative ? theme.negative
                                                                  : theme.mark;
    const auto size = pencil.frame().px(kGripPx);
    pencil.list().AddLine(place.tip, place.grip, packed(theme.paper), pencil.frame().px(6));
    pencil.list().AddLine(place.tip, place.grip, packed(colour), pencil.frame().px(3));
    if (place.is_clamp) draw_clamp(pencil, place, colour);
    pencil.list().AddCircleFilled(place.grip, size * 0.8F, packed(colour));
    pencil.list().AddCircle(place.grip, size * 0.8F, packed(theme.paper), 0, 1.5F);
    ImFont* font = pencil.frame().fonts.text;
    const ImVec2 extent = font->CalcTextSizeA(size, 1e6F, 0, lead.letter.c_str());
    pencil.list().AddText(font, size, {place.grip.x - extent.x / 2, place.grip.y - extent.y / 2},
                          packed(theme.paper), lead.letter.c_str());
    pencil.frame().landmarks->put("lead:" + lead.letter, {place.grip.x - size, place.grip.y - size,
                                                          place.grip.x + size, place.grip.y + size});
}

}  // namespace

std::vector<Spot> spots_of(const Diagram& diagram, const std::string& point) {
    std::vector<Spot> spots;
    for (const auto& symbol : diagram.symbols)
        for (const auto& terminal : symbol.terminals)
            if (terminal.point == point) spots.push_back(terminal.at);
    if (!spots.empty()) return spots;
    for (const auto& rail : diagram.rails)
        if (rail.splice == point && !rail.path.empty()) spots.push_back(rail.path.front());
    return spots;
}

void take_lead_room(const Pencil& pencil, FreeRoom& room, const Diagram& diagram,
                    const std::vector<LeadMark>& leads) {
    std::vector<const LeadMark*> whose;
    const float size = pencil.frame().px(kGripPx);
    for (const LeadPlace& place : lead_places(pencil, diagram, leads, whose))
        room.take({place.grip.x - size, place.grip.y - size, place.grip.x + size, place.grip.y + size});
}

void draw_leads(const Pencil& pencil, const Diagram& diagram, const std::vector<LeadMark>& leads) {
    std::vector<const LeadMark*> whose;
    const std::vector<LeadPlace> places = lead_places(pencil, diagram, leads, whose);
    for (std::size_t i = 0; i < places.size(); ++i) draw_lead(pencil, *whose[i], places[i]);
}

}  // namespace halfsplit::window
