#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"

namespace halfsplit::view::diagram {

/// A place between grid points, in grid units: symbols are finer than the grid.
struct Place {
    double x = 0;
    double y = 0;
};

struct Colour {
    int red = 0;
    int green = 0;
    int blue = 0;
    friend bool operator==(const Colour&, const Colour&) = default;
};

inline constexpr Colour kInk{20, 20, 20};
inline constexpr Colour kPaper{255, 255, 255};

struct Pen {
    Colour colour = kInk;
    double width = 0.7;  ///< in grid units
    double dash = 0;     ///< length of dashes and of the gaps between them; 0 = a full line
};

/// What a group of drawn things is, for who looks something up in the picture or points at it.
struct Subject {
    std::string kind;   ///< "part", "wire", "rail", "link"
    std::string id;     ///< of the part or wire; "" for none
    std::string about;  ///< in words
};

/// Where a diagram is drawn: a page, a window.
class Canvas {
  public:
    Canvas() = default;
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;
    virtual ~Canvas() = default;

    virtual void polyline(const std::vector<Place>& places, const Pen& pen) = 0;
    virtual void polygon(const std::vector<Place>& places, Colour fill) = 0;
    virtual void rectangle(Place left_top, Place right_bottom, const Pen& pen) = 0;
    virtual void circle(Place centre, double radius, const Pen& pen) = 0;
    virtual void disc(Place centre, double radius, Colour fill) = 0;
    /// From one angle to another, in degrees, 0 to the right, growing clockwise as y grows downwards.
    virtual void arc(Place centre, double radius, double from_deg, double to_deg, const Pen& pen) = 0;
    /// One line, its left end and baseline at `at`, `width` wide, in the size of text_metrics.h times `size`.
    virtual void text(Place at, const std::string& line, double width, double size, Colour colour) = 0;
    /// What is drawn until the matching end() belongs together.
    virtual void begin(const Subject& subject) = 0;
    virtual void end() = 0;
    /// Until unclip() nothing outside the box is drawn.
    virtual void clip(const Box& box) = 0;
    virtual void unclip() = 0;

    void line(Place from, Place to, const Pen& pen) { polyline({from, to}, pen); }
};

}  // namespace halfsplit::view::diagram
