#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "ui/window/paper/free_room.h"
#include "ui/window/paper/pencil.h"

namespace halfsplit::window {

/// What becomes of a plate that finds no room.
enum class NoRoom { leave_out, cover };

/// Near something on the page, wherever nothing is covered; a line leads there from where it is further away.
/// What must be said covers what it is about where there is no room at all.
void write_near(const Pencil& pencil, FreeRoom& room, const view::diagram::Box& about,
                const std::string& words, Colour letters, NoRoom otherwise);

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
void write_beside(const Pencil& pencil, FreeRoom& room, Said& said,
                  const std::vector<view::diagram::Spot>& path, const std::string& words);

}  // namespace halfsplit::window
