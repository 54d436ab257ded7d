#include "ui/window/paper/plates.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::window {

using view::diagram::Box;
using view::diagram::Spot;

namespace {

/// All places for a plate of this size around something, the nearest first.
std::vector<ScreenBox> places_around(const ScreenBox& about, float width, float height, float gap) {
    constexpr int kRounds = 4;
    std::vector<ScreenBox> places;
    const auto add = [&](float left, float middle_y) {
        places.push_back({left, middle_y - height / 2, left + width, middle_y + height / 2});
    };
    for (int round = 0; round < kRounds; ++round) {
        const float away = gap + static_cast<float>(round) * 1.4F * height;
        for (const float y : {about.centre_y(), about.bottom, about.top}) {
            add(about.left - width - away, y);
            add(about.right + away, y);
        }
        for (const float y : {about.bottom + away + height / 2, about.top - away - height / 2}) {
            add(about.left, y);
            add(about.right - width, y);
            add(about.right + gap, y);
            add(about.left - width - gap, y);
        }
    }
    return places;
}

/// From the plate's edge to what it is about, where that is not beside it.
void draw_leader(const Pencil& pencil, const ScreenBox& plate, const ScreenBox& about) {
    const ImVec2 from{std::clamp(about.centre_x(), plate.left, plate.right),
                      std::clamp(about.centre_y(), plate.top, plate.bottom)};
    const ImVec2 to{std::clamp(from.x, about.left, about.right), std::clamp(from.y, about.top, about.bottom)};
    if (std::hypot(from.x - to.x, from.y - to.y) < 1.2F * (plate.bottom - plate.top)) return;
    pencil.list().AddLine(from, to, packed(pencil.frame().theme.soft_text), pencil.frame().px(1.5));
}

}  // namespace

void write_near(const Pencil& pencil, FreeRoom& room, const Box& about, const std::string& words,
                Colour letters, NoRoom otherwise) {
    const ImVec2 from = pencil.on_screen(about.left, about.top);
    const ImVec2 to = pencil.on_screen(about.right, about.bottom);
    const ScreenBox box{from.x, from.y, to.x, to.y};
    ScreenBox over = pencil.plate_box({from.x, to.y - 3}, words);
    if (const float beyond = over.right - room.screen().right; beyond > 0) {
        over.left -= beyond;
        over.right -= beyond;
    }
    const std::vector<ScreenBox> places =
        places_around(box, over.right - over.left, over.bottom - over.top, pencil.frame().px(3));
    const auto free = std::ranges::find_if(places, [&](const ScreenBox& each) { return room.is_free(each); });
    if (free == places.end() && otherwise == NoRoom::leave_out) return;
    const ScreenBox& place = free == places.end() ? over : *free;
    if (free != places.end()) draw_leader(pencil, place, box);
    pencil.plate(place, words, letters);
    room.take(place);
}

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

}  // namespace halfsplit::window
