#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/shape.h"

namespace halfsplit::view::diagram {

/// Where something is: x to the right, y downwards, in grid units (text_metrics.h).
struct Spot {
    int x = 0;
    int y = 0;
    friend bool operator==(const Spot&, const Spot&) = default;
};

struct Box {
    int left = 0;
    int top = 0;
    int right = 0;
    int bottom = 0;

    int width() const { return right - left; }
    int height() const { return bottom - top; }
    /// Edges that touch do not overlap.
    bool overlaps(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
    friend bool operator==(const Box&, const Box&) = default;
};

enum class Side { top, bottom };  ///< of a symbol as it stands upright

/// A pin as it is drawn: where its wire ends, on the edge of the symbol's ink.
struct Terminal {
    std::string point;  ///< "F4.2", or "E5" of a part that is one point
    std::string name;   ///< "2"
    Side side = Side::top;
    Spot at;
};

/// A contact inside a switch: indices of terminals, and how it stands at rest.
struct DrawnContact {
    int from = 0;
    int to = 0;
    bool closed_at_rest = false;
    friend bool operator==(const DrawnContact&, const DrawnContact&) = default;
};

/// One symbol. A part has one, but a coupling has one a contact, and in a diagram of several bands a ground
/// point has one in each that needs it.
struct Symbol {
    std::string part;
    Shape shape = Shape::box;
    Box ink;                          ///< everything drawn lies in it
    std::vector<Terminal> terminals;  ///< in the order of the part's pins
    std::vector<DrawnContact> contacts = {};
    /// Of a switch drawn as a table: the contacts that are closed in each of its positions.
    std::vector<std::vector<DrawnContact>> positions = {};
    bool is_level = false;  ///< a two-pole lying on its side: its first terminal to the left
};

/// One wire, drawn without a gap from pin to pin; at a splice it ends anywhere on the splice's rail. Wires
/// that share a pin run over each other from there to the dot where they part.
struct WireLine {
    std::string wire;
    std::string from;  ///< points
    std::string to;
    std::string base_colour;    ///< IEC 60757 letters
    std::string tracer_colour;  ///< "" where there is none
    std::vector<Spot> path;
};

/// A splice: a level line on which its wires end.
struct Rail {
    std::string splice;  ///< "J1"
    std::vector<Spot> path;
};

/// What moves what: a dashed line from a mechanism to its motor and its limit switches.
struct MotionLink {
    std::string mechanism;
    std::string part;
    std::vector<std::vector<Spot>> paths;
};

/// Three or more arms meet, or the one mark of a splice that has less.
struct Dot {
    std::string point;
    Spot at;
};

struct Label {
    enum class Role {
        part,      ///< "F7 15 A"
        title,     ///< "Entry step motor", a line of it
        pin,       ///< at a terminal
        inside,    ///< a pin's or unit's name within its symbol
        wire,      ///< "RDGN 2.5" in one line, or colour and size in two
        rail,      ///< "J1"
        heading,   ///< of the whole, of a band
        legend,    ///< what a splice or coupling is, below the diagram
        reference  ///< says on which page something goes on: "→ 3"
    };
    std::string text;
    Role role = Role::part;
    std::string owner;  ///< id of the part, wire or point it belongs to; "" for headings
    Box box;            ///< the text starts at its left edge
    /// Of a reference: the page it leads to, counted from 0, and the part or point to look for there.
    int page = -1;
    std::string leads_to = {};
};

struct Diagram {
    std::string title;
    std::vector<Symbol> symbols;
    std::vector<WireLine> wires;
    std::vector<Rail> rails;
    std::vector<MotionLink> links;
    std::vector<Dot> dots;
    std::vector<Label> labels;
    Box bounds;  ///< of all of it, with a margin; starts at 0, 0
};

}  // namespace halfsplit::view::diagram
