#include "ui/view/diagram/rail_names.h"

#include <algorithm>

#include "ui/view/diagram/free_places.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kFurthest = 400;  // units the search goes from the rail before it takes any place at all
constexpr int kStep = 2;
constexpr int kNear = 4;

int gap(int a_from, int a_to, int b_from, int b_to) {
    return std::max({0, b_from - a_to, a_from - b_to});
}

int distance(const Box& box, const RailName& rail) {
    return std::max(gap(box.left, box.right, rail.left, rail.right),
                    gap(box.top, box.bottom, rail.y, rail.y));
}

/// What a name must not touch, and the rails it could be taken for.
struct Surroundings {
    const FreePlaces& ground;
    const std::vector<RailName>& rails;
    bool is_any_place_good = false;  ///< better somewhere than on something

    bool is_free(const Box& box) const { return ground.is_free(box); }
    /// A name is read as that of the rail it is nearest to.
    bool is_at(const RailName& own, const Box& box) const {
        const int away = distance(box, own);
        return is_any_place_good || std::all_of(rails.begin(), rails.end(), [&](const RailName& other) {
                   return other.splice == own.splice || distance(box, other) > away;
               });
    }
};

/// Places on one level, the nearest to the rail's left end first.
bool place_at_level(const Surroundings& ground, const RailName& name, int top, int width, int reach,
                    Box& box) {
    const auto works = [&](int left) {
        box = {left, top, left + width, top + kLineHeight};
        return ground.is_free(box) && ground.is_at(name, box);
    };
    for (int left = name.left + 2; left + width <= name.right; left += kStep)
        if (works(left)) return true;
    for (int away = 0; away <= reach; away += kStep)
        if (works(name.left - 2 - width - away) || works(name.right + 2 + away)) return true;
    return false;
}

/// Levels on which a name stands at its rail: above it, in line with it, below it.
struct RailLevels {
    int above = 0;
    int beside = 0;
    int below = 0;
};

RailLevels levels_at(const RailName& name) {
    return {name.y - kLineHeight - 1, name.y - kLineHeight / 2, name.y + 2};
}

bool place_near(const Surroundings& ground, const RailName& name, int width, Box& box) {
    const RailLevels levels = levels_at(name);
    for (const int top : {levels.above, levels.beside, levels.below})
        if (place_at_level(ground, name, top, width, kNear, box)) return true;
    return false;
}

/// The name above the rail and the other bands below it: where lines to both sides leave no more room.
bool place_split(const Surroundings& ground, const RailName& name, int width, int see_width, Box& box,
                 Box& see) {
    const RailLevels levels = levels_at(name);
    for (int left = name.left - width - kNear; left <= name.right + kNear; ++left) {
        box = {left, levels.above, left + width, levels.above + kLineHeight};
        see = {left, levels.below, left + see_width, levels.below + kLineHeight};
        if (ground.is_free(box) && ground.is_free(see) && ground.is_at(name, box) && ground.is_at(name, see))
            return true;
    }
    return false;
}

bool place_within(const Surroundings& ground, const RailName& name, int width, int furthest, Box& box) {
    const RailLevels levels = levels_at(name);
    for (int reach = 0; reach <= furthest; reach += 10)
        for (const int top :
             {levels.above, levels.beside, levels.below, levels.above - reach / 4, levels.below + reach / 4})
            if (place_at_level(ground, name, top, width, reach, box)) return true;
    return false;
}

Box place_anywhere(Surroundings ground, const RailName& name, int width) {
    Box box;
    if (place_within(ground, name, width, kFurthest / 4, box)) return box;
    ground.is_any_place_good = true;
    place_within(ground, name, width, kFurthest, box);
    return box;
}

}  // namespace

void name_rails(Diagram& diagram, const std::vector<RailName>& names) {
    FreePlaces taken(diagram);
    const Surroundings ground{taken, names, false};
    const auto put = [&](const RailName& name, const std::string& text, const Box& box) {
        taken.take(box);
        diagram.labels.push_back({text, Label::Role::rail, name.splice, box});
    };
    for (const RailName& name : names) {
        const std::string bands = name.see.empty() ? "" : "(" + name.see + ")";
        const std::string text = bands.empty() ? name.splice : name.splice + " " + bands;
        Box box;
        Box see;
        if (place_near(ground, name, text_width(text), box)) {
            put(name, text, box);
        } else if (place_split(ground, name, text_width(name.splice), text_width(bands), box, see)) {
            put(name, name.splice, box);
            if (!bands.empty()) put(name, bands, see);
        } else if (place_near(ground, name, text_width(name.splice), box)) {
            put(name, name.splice, box);  // better at its rail than complete
        } else {
            put(name, text, place_anywhere(ground, name, text_width(text)));
        }
    }
}

}  // namespace halfsplit::view::diagram
