#include "ui/view/diagram/symbol_pens.h"

namespace halfsplit::view::diagram {

namespace {

/// A pin in a socket; the pin is on side a.
void coupling(const SymbolPen& pen) {
    const bool pin_above = pen.symbol.terminals.empty() || pen.symbol.terminals.front().side == Side::top;
    const double down = pin_above ? 1 : -1;
    const double x = pen.x();
    const double y = pen.y();
    pen.stroke({{x, y - 6 * down}, {x, y - 3 * down}});
    pen.canvas.polyline({{x, y - 3 * down}, {x, y + 1.2 * down}}, {kInk, 2, 0});
    pen.canvas.arc({x, y}, 3.2, pin_above ? 0 : 180, pin_above ? 180 : 360, SymbolPen::kStroke);
    pen.stroke({{x, y + 3.2 * down}, {x, y + 6 * down}});
}

void ground(const SymbolPen& pen) {
    const double x = pen.x();
    pen.stroke({{x, pen.top()}, {x, pen.top() + 3}});
    for (const double step : {0.0, 1.0, 2.0}) {
        const double half = 6 - 2 * step;
        const double y = pen.top() + 3 + 2.2 * step;
        pen.canvas.polyline({{x - half, y}, {x + half, y}}, {kInk, 1, 0});
    }
}

}  // namespace

bool draw_joint(const SymbolPen& pen) {
    switch (pen.symbol.shape) {
        case Shape::coupling:
            return coupling(pen), true;
        case Shape::ground:
            return ground(pen), true;
        case Shape::splice:
            pen.canvas.disc({pen.x(), pen.y()}, 1.8, kInk);
            return true;
        default:
            return false;
    }
}

}  // namespace halfsplit::view::diagram
