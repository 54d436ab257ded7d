#include "ui/view/diagram/wire_colours.h"

#include <algorithm>
#include <array>
#include <utility>

namespace halfsplit::view::diagram {

Colour wire_colour(std::string_view letters) {
    // Letters: IEC 60757. Shades: our own, apart from each other in print and against the dark outline.
    static constexpr std::array<std::pair<std::string_view, Colour>, 14> kColours{{
        {"BK", {0, 0, 0}},
        {"BN", {139, 84, 38}},
        {"RD", {225, 30, 30}},
        {"OG", {245, 135, 20}},
        {"YE", {250, 220, 20}},
        {"GN", {20, 150, 60}},
        {"BU", {40, 90, 215}},
        {"VT", {140, 60, 180}},
        {"GY", {150, 150, 150}},
        {"WH", {255, 255, 255}},
        {"PK", {250, 150, 180}},
        {"GD", {200, 165, 60}},
        {"SR", {200, 205, 210}},
        {"TQ", {40, 190, 190}},
    }};
    const auto* found = std::find_if(kColours.begin(), kColours.end(),
                                     [&](const auto& known) { return known.first == letters; });
    return found == kColours.end() ? Colour{110, 110, 110} : found->second;
}

}  // namespace halfsplit::view::diagram
