#include "ui/view/diagram/symbol_pens.h"

namespace halfsplit::view::diagram {

namespace {

void upright_box(const SymbolPen& pen) {
    pen.leads(pen.top() + 1, pen.bottom() - 1);
    pen.box({pen.x() - 2.5, pen.top() + 1}, {pen.x() + 2.5, pen.bottom() - 1});
}

void fuse(const SymbolPen& pen) {
    pen.box({pen.x() - 2.2, pen.top() + 2}, {pen.x() + 2.2, pen.bottom() - 2});
    pen.stroke({{pen.x(), pen.top()}, {pen.x(), pen.bottom()}});
}

void fusible_link(const SymbolPen& pen) {
    const double x = pen.x();
    const double y = pen.y();
    pen.leads(y - 5, y + 5);
    pen.canvas.arc({x, y - 2.5}, 2.5, -90, 90, SymbolPen::kStroke);
    pen.canvas.arc({x, y + 2.5}, 2.5, 90, 270, SymbolPen::kStroke);
    for (const double end : {y - 5, y + 5}) pen.canvas.disc({x, end}, 1, kInk);
}

void heater(const SymbolPen& pen) {
    upright_box(pen);
    for (const double at : {-3.6, -1.2, 1.2, 3.6})
        pen.stroke({{pen.x() - 2.5, pen.y() + at}, {pen.x() + 2.5, pen.y() + at}});
}

/// A resistor that heat changes: crossed by a stroke with a foot, the sense of the change beside it.
void thermistor(const SymbolPen& pen, const char* sense) {
    upright_box(pen);
    pen.stroke({{pen.x() - 6, pen.y() + 5}, {pen.x() - 4, pen.y() + 5}, {pen.x() + 5, pen.y() - 5}});
    pen.letters({pen.x() - 4.2, pen.y() - 3.5}, sense, 0.8);
}

void temperature_sender(const SymbolPen& pen) {
    const double x = pen.x();
    pen.canvas.circle({x, pen.y()}, 6.5, SymbolPen::kThin);
    pen.leads(pen.y() - 4.5, pen.y() + 4.5);
    pen.box({x - 1.8, pen.y() - 4.5}, {x + 1.8, pen.y() + 4.5});
    pen.stroke({{x - 5, pen.y() + 3.5}, {x - 3.5, pen.y() + 3.5}, {x + 4, pen.y() - 3.5}});
}

void capacitor(const SymbolPen& pen) {
    pen.leads(pen.y() - 1.2, pen.y() + 1.2);
    for (const double y : {pen.y() - 1.2, pen.y() + 1.2})
        pen.canvas.polyline({{pen.x() - 5, y}, {pen.x() + 5, y}}, {kInk, 1, 0});
}

/// Level resistors from each terminal to the next.
void resistor_chain(const SymbolPen& pen) {
    const int count = static_cast<int>(pen.symbol.terminals.size());
    for (int i = 0; i < count; ++i) {
        const Place end = pen.pin(i);
        pen.stroke({end, {end.x, pen.y()}});
        if (i + 1 == count) continue;
        const double next = pen.pin(i + 1).x;
        pen.stroke({{end.x, pen.y()}, {end.x + 4, pen.y()}});
        pen.box({end.x + 4, pen.y() - 2.2}, {next - 4, pen.y() + 2.2});
        pen.stroke({{next - 4, pen.y()}, {next, pen.y()}});
    }
}

void variable_resistor(const SymbolPen& pen) {
    const Place first = pen.pin("1");
    const Place wiper = pen.pin("2");
    const Place last = pen.pin("3");
    for (const Place end : {first, last}) pen.stroke({end, {end.x, pen.y()}});
    pen.stroke({{first.x, pen.y()}, {first.x + 5, pen.y()}});
    pen.box({first.x + 5, pen.y() - 2.2}, {last.x - 5, pen.y() + 2.2});
    pen.stroke({{last.x - 5, pen.y()}, {last.x, pen.y()}});
    pen.arrow(wiper, {wiper.x, pen.y() + (wiper.y < pen.y() ? -2.2 : 2.2)});
}

}  // namespace

bool draw_passive(const SymbolPen& pen) {
    switch (pen.symbol.shape) {
        case Shape::resistor:
            return upright_box(pen), true;
        case Shape::fuse:
            return fuse(pen), true;
        case Shape::fusible_link:
            return fusible_link(pen), true;
        case Shape::heater:
            return heater(pen), true;
        case Shape::ntc:
            return thermistor(pen, "-t"), true;
        case Shape::ptc:
            return thermistor(pen, "+t"), true;
        case Shape::temperature_sender:
            return temperature_sender(pen), true;
        case Shape::capacitor:
            return capacitor(pen), true;
        case Shape::resistor_chain:
            return resistor_chain(pen), true;
        case Shape::variable_resistor:
            return variable_resistor(pen), true;
        default:
            return false;
    }
}

}  // namespace halfsplit::view::diagram
