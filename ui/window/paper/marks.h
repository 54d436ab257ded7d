#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ui/window/paper/page.h"

namespace halfsplit::window {

/// A clip, tip or plug of an instrument on a point, or a clamp around a wire.
struct LeadMark {
    enum class Pole { positive, negative, other };
    Pole pole = Pole::positive;
    std::string point;   ///< or a wire's id
    std::string letter;  ///< drawn in it, so that the colour alone says nothing
};

/// How a part is seen to be doing.
struct PartLook {
    double glow = 0;    ///< 0 to 1 of its light, heat or sound
    double turn = 0;    ///< of a shaft: in turns, as time goes by
    std::string words;  ///< "lit", "turns", "closed"; "" says nothing
};

/// How a wire or splice stands in study.
struct WireLook {
    double potential_share = 0;  ///< of the largest, for its colour
    double flow = 0;             ///< current in A, from the wire's "from" to its "to"
    std::string words;           ///< "12.31 V", "4.2 A"
};

/// All that is laid over a page. What is not named is drawn plain.
struct Marks {
    std::vector<LeadMark> leads;
    std::map<std::string, PartLook> parts;
    std::map<std::string, WireLook> wires;
    std::map<std::string, std::string> notes;   ///< by point: "12.31 V"
    std::map<std::string, std::string> away;    ///< by part: "pulled", "unplugged"
    std::map<std::string, std::string> doubts;  ///< by part, point or wire: "38 %", "fault"
    /// By wire, part or point of a part: its number on the way that is followed, from 1 on.
    std::map<std::string, int> way;
    std::optional<Pick> chosen;
};

}  // namespace halfsplit::window
