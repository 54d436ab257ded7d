#include "ui/view/diagram/symbol_pens.h"

#include <cmath>
#include <stdexcept>

#include "engine/base/index.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/lying_canvas.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

/// Half the height of capitals, in ems (DejaVu: 0.729).
constexpr double kHalfCapital = 0.365;

Place place_of(Spot spot) {
    return {static_cast<double>(spot.x), static_cast<double>(spot.y)};
}

}  // namespace

const Terminal* SymbolPen::terminal(const std::string& name) const {
    for (const Terminal& terminal : symbol.terminals)
        if (terminal.name == name) return &terminal;
    return nullptr;
}

Place SymbolPen::pin(const std::string& name) const {
    const Terminal* found = terminal(name);
    return found == nullptr ? Place{x(), y()} : place_of(found->at);
}

Place SymbolPen::pin(int index) const {
    return place_of(symbol.terminals.at(at(index)).at);
}

void SymbolPen::leads(double body_top, double body_bottom) const {
    stroke({{x(), top()}, {x(), body_top}});
    stroke({{x(), body_bottom}, {x(), bottom()}});
}

void SymbolPen::letters(Place middle, const std::string& text, double size) const {
    const double width = exact_width(text) * size;
    canvas.text({middle.x - width / 2, middle.y + kHalfCapital * kTextSize * size}, text, width, size, kInk);
}

void SymbolPen::arrow(Place from, Place to) const {
    stroke({from, to});
    const double angle = std::atan2(to.y - from.y, to.x - from.x);
    const auto barb = [&](double turn) {
        return Place{to.x - 2 * std::cos(angle + turn), to.y - 2 * std::sin(angle + turn)};
    };
    canvas.polygon({to, barb(0.4), barb(-0.4)}, kInk);
}

void SymbolPen::lever(Place pivot, Place fixed, bool closed, double open_to) const {
    canvas.disc(pivot, 0.9, kInk);
    const double way = fixed.y - pivot.y;
    if (closed)
        stroke({pivot, {fixed.x + 1, fixed.y + (way > 0 ? 1 : -1)}});
    else
        stroke({pivot, {pivot.x + open_to, pivot.y + way * 0.85}});
    stroke({{fixed.x - (closed ? 0 : 1), fixed.y}, {fixed.x + (closed ? 2 : 1), fixed.y}});
}

void SymbolPen::cross_in_circle(Place centre, double radius) const {
    canvas.circle(centre, radius, kStroke);
    const double arm = radius * std::sqrt(0.5);
    stroke({{centre.x - arm, centre.y - arm}, {centre.x + arm, centre.y + arm}});
    stroke({{centre.x - arm, centre.y + arm}, {centre.x + arm, centre.y - arm}});
}

void draw_symbol(const Symbol& symbol, Canvas& canvas) {
    if (symbol.is_level) {
        LyingCanvas lying(canvas, symbol.ink);
        return draw_symbol(stood_up(symbol), lying);
    }
    const SymbolPen pen(symbol, canvas);
    const bool is_drawn =
        draw_source(pen) || draw_load(pen) || draw_contact(pen) || draw_passive(pen) || draw_joint(pen);
    if (!is_drawn) throw std::logic_error("a shape nobody draws");
}

}  // namespace halfsplit::view::diagram
