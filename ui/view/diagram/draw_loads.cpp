#include "ui/view/diagram/symbol_pens.h"

namespace halfsplit::view::diagram {

namespace {

void lamp(const SymbolPen& pen) {
    pen.leads(pen.y() - 5, pen.y() + 5);
    pen.cross_in_circle({pen.x(), pen.y()}, 5);
}

void twin_lamp(const SymbolPen& pen) {
    const Place common = pen.pin("31");
    const bool is_below = common.y > pen.y();
    const double bar = is_below ? pen.bottom() - 1.5 : pen.top() + 1.5;
    const double near_bar = is_below ? pen.y() + 4.5 : pen.y() - 4.5;
    const double far = is_below ? pen.y() - 4.5 : pen.y() + 4.5;
    for (const char* name : {"a", "b"}) {
        const Place end = pen.pin(name);
        pen.stroke({end, {end.x, far}});
        pen.cross_in_circle({end.x, pen.y()}, 4.5);
        pen.stroke({{end.x, near_bar}, {end.x, bar}, {common.x, bar}});
    }
    pen.stroke({common, {common.x, bar}});
}

/// From the terminal of that name towards the other one; true: current flows down.
bool flows_down(const SymbolPen& pen, const char* anode) {
    const Terminal* found = pen.terminal(anode);
    return found == nullptr || found->side == Side::top;
}

void diode(const SymbolPen& pen, const char* anode) {
    const double x = pen.x();
    const double down = flows_down(pen, anode) ? 3.5 : -3.5;
    pen.stroke({{x, pen.top()}, {x, pen.bottom()}});
    pen.canvas.polygon({{x - 4, pen.y() - down}, {x + 4, pen.y() - down}, {x, pen.y() + down}}, kInk);
    pen.stroke({{x - 4, pen.y() + down}, {x + 4, pen.y() + down}});
}

void led(const SymbolPen& pen) {
    diode(pen, "+");
    for (const double shift : {0.0, 2.5})
        pen.arrow({pen.x() + 2.5, pen.y() + shift - 1}, {pen.x() + 6, pen.y() + shift - 4.5});
}

void motor(const SymbolPen& pen) {
    pen.leads(pen.y() - 6, pen.y() + 6);
    pen.canvas.circle({pen.x(), pen.y()}, 6, SymbolPen::kStroke);
    pen.letters({pen.x(), pen.y()}, "M");
}

void lock_actuator(const SymbolPen& pen) {
    const double x = pen.x() - 1.5;
    pen.leads(pen.y() - 4.2, pen.y() + 4.2);
    pen.canvas.circle({x, pen.y()}, 4.5, SymbolPen::kStroke);
    pen.letters({x, pen.y()}, "M", 0.8);
    pen.box({x + 4.5, pen.y() - 1}, {pen.right(), pen.y() + 1});
}

void horn(const SymbolPen& pen) {
    const double x = pen.x();
    const double y = pen.y();
    pen.leads(y - 3, y + 3);
    pen.box({x - 1, y - 3}, {x + 3, y + 3});
    pen.stroke({{x - 1, y - 3}, {x - 6, y - 6}, {x - 6, y + 6}, {x - 1, y + 3}});
}

void buzzer(const SymbolPen& pen) {
    const double x = pen.x() - 3;
    pen.leads(pen.y() - 5, pen.y() + 5);
    pen.canvas.arc({x, pen.y()}, 6, -90, 90, SymbolPen::kStroke);
    pen.stroke({{x, pen.y() - 6}, {x, pen.y() + 6}});
}

void solenoid(const SymbolPen& pen) {
    pen.leads(pen.y() - 3.5, pen.y() + 3.5);
    pen.box({pen.x() - 5, pen.y() - 3.5}, {pen.x() + 4, pen.y() + 3.5});
    pen.canvas.polyline({{pen.x() - 5, pen.y() + 3.5}, {pen.x() - 1, pen.y() - 3.5}}, SymbolPen::kThin);
    pen.canvas.polyline({{pen.x() + 4, pen.y()}, {pen.x() + 6, pen.y()}}, SymbolPen::kThick);
}

}  // namespace

bool draw_load(const SymbolPen& pen) {
    switch (pen.symbol.shape) {
        case Shape::lamp:
            return lamp(pen), true;
        case Shape::twin_lamp:
            return twin_lamp(pen), true;
        case Shape::led:
            return led(pen), true;
        case Shape::diode:
            return diode(pen, "A"), true;
        case Shape::motor:
            return motor(pen), true;
        case Shape::lock_actuator:
            return lock_actuator(pen), true;
        case Shape::horn:
            return horn(pen), true;
        case Shape::buzzer:
            return buzzer(pen), true;
        case Shape::solenoid:
            return solenoid(pen), true;
        default:
            return false;
    }
}

}  // namespace halfsplit::view::diagram
