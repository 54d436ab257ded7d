#include "ui/view/diagram/symbol_pens.h"

namespace halfsplit::view::diagram {

namespace {

/// Two cells: the long thin stroke of each is its positive plate.
void battery(const SymbolPen& pen) {
    const Terminal* plus = pen.terminal("+");
    const double down = plus == nullptr || plus->side == Side::top ? 1 : -1;
    const double x = pen.x();
    for (const double at : {-4.0, 2.0}) {
        const double y = pen.y() + at * down;
        pen.stroke({{x - 6, y}, {x + 6, y}});
        pen.canvas.polyline({{x - 3, y + 2 * down}, {x + 3, y + 2 * down}}, SymbolPen::kThick);
    }
    pen.leads(pen.y() - 4, pen.y() + 4);
    pen.canvas.polyline({{x, pen.y() - 2 * down}, {x, pen.y() + 2 * down}}, SymbolPen::kThin);
}

/// Middle of the sign in a box, under the names of its pins.
Place sign_of(const SymbolPen& pen) {
    return {pen.x(), pen.top() + 15};
}

void square_wave(const SymbolPen& pen) {
    const Place c = sign_of(pen);
    pen.stroke({{c.x - 10, c.y + 3},
                {c.x - 6, c.y + 3},
                {c.x - 6, c.y - 3},
                {c.x - 1, c.y - 3},
                {c.x - 1, c.y + 3},
                {c.x + 4, c.y + 3},
                {c.x + 4, c.y - 3},
                {c.x + 9, c.y - 3},
                {c.x + 9, c.y + 3}});
}

void frame(const SymbolPen& pen) {
    pen.box({pen.left(), pen.top()}, {pen.right(), pen.bottom()});
}

}  // namespace

bool draw_source(const SymbolPen& pen) {
    switch (pen.symbol.shape) {
        case Shape::battery:
            battery(pen);
            return true;
        case Shape::alternator:
            frame(pen);
            pen.canvas.circle(sign_of(pen), 6, SymbolPen::kStroke);
            pen.letters(sign_of(pen), "G");
            return true;
        case Shape::flasher:
        case Shape::sender:
            frame(pen);
            square_wave(pen);
            return true;
        case Shape::box:
            frame(pen);
            return true;
        case Shape::mechanism:
            pen.canvas.rectangle({pen.left(), pen.top()}, {pen.right(), pen.bottom()}, SymbolPen::kDashed);
            return true;
        default:
            return false;
    }
}

}  // namespace halfsplit::view::diagram
