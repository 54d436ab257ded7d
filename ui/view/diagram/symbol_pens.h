#pragma once

#include <string>
#include <vector>

#include "ui/view/diagram/canvas.h"

namespace halfsplit::view::diagram {

/// Strokes that symbols share. A symbol is drawn within its ink; its lines end at its terminals.
class SymbolPen {
  public:
    SymbolPen(const Symbol& drawn, Canvas& on) : symbol(drawn), canvas(on) {}

    const Symbol& symbol;
    Canvas& canvas;

    static constexpr Pen kStroke{kInk, 0.7, 0};
    static constexpr Pen kThin{kInk, 0.45, 0};
    static constexpr Pen kThick{kInk, 1.6, 0};
    static constexpr Pen kDashed{kInk, 0.45, 1.2};

    double left() const { return symbol.ink.left; }
    double right() const { return symbol.ink.right; }
    double top() const { return symbol.ink.top; }
    double bottom() const { return symbol.ink.bottom; }
    double x() const { return (left() + right()) / 2; }
    double y() const { return (top() + bottom()) / 2; }
    /// Of the terminal with that name; the ink's middle where there is none.
    Place pin(const std::string& name) const;
    const Terminal* terminal(const std::string& name) const;
    Place pin(int index) const;

    void stroke(const std::vector<Place>& places) const { canvas.polyline(places, kStroke); }
    void box(Place left_top, Place right_bottom) const { canvas.rectangle(left_top, right_bottom, kStroke); }
    /// From both terminals of an upright symbol to its body.
    void leads(double body_top, double body_bottom) const;
    /// A letter or two in the middle of a place.
    void letters(Place middle, const std::string& text, double size = 1) const;
    void arrow(Place from, Place to) const;
    /// A contact: its lever hangs at `pivot` and reaches for `fixed`, or stands open to the side given.
    void lever(Place pivot, Place fixed, bool closed, double open_to = -4.5) const;
    void cross_in_circle(Place centre, double radius) const;
};

// What is drawn where; each knows the shapes of its group and returns false for others.
bool draw_source(const SymbolPen& pen);
bool draw_load(const SymbolPen& pen);
bool draw_contact(const SymbolPen& pen);
bool draw_passive(const SymbolPen& pen);
bool draw_joint(const SymbolPen& pen);

}  // namespace halfsplit::view::diagram
