#include <algorithm>
#include <numeric>

#include "engine/base/index.h"
#include "ui/view/diagram/symbol_pens.h"

namespace halfsplit::view::diagram {

namespace {

constexpr double kStubIn = 4;  ///< from a terminal to its end of the contact

/// An upright contact, its lever at the lower end.
void upright(const SymbolPen& pen) {
    const bool closed = !pen.symbol.contacts.empty() && pen.symbol.contacts.front().closed_at_rest;
    pen.leads(pen.top() + kStubIn, pen.bottom() - kStubIn);
    pen.lever({pen.x(), pen.bottom() - kStubIn}, {pen.x(), pen.top() + kStubIn}, closed);
}

double lever_x(const SymbolPen& pen) {
    const bool closed = !pen.symbol.contacts.empty() && pen.symbol.contacts.front().closed_at_rest;
    return closed ? pen.x() : pen.x() - 2.5;
}

void push_contact(const SymbolPen& pen) {
    upright(pen);
    pen.canvas.polyline({{lever_x(pen), pen.y()}, {pen.left(), pen.y()}}, SymbolPen::kDashed);
    pen.stroke({{pen.left() + 1.5, pen.y() - 2},
                {pen.left(), pen.y() - 2},
                {pen.left(), pen.y() + 2},
                {pen.left() + 1.5, pen.y() + 2}});
}

void thermo_contact(const SymbolPen& pen) {
    upright(pen);
    pen.letters({pen.left() + 1, pen.y() + 3.5}, "t", 0.9);
}

void circuit_breaker(const SymbolPen& pen) {
    pen.leads(pen.top() + kStubIn, pen.bottom() - kStubIn);
    pen.lever({pen.x(), pen.bottom() - kStubIn}, {pen.x(), pen.top() + kStubIn}, true);
    pen.canvas.polyline({{pen.x(), pen.y()}, {pen.left() + 4, pen.y()}}, SymbolPen::kDashed);
    pen.box({pen.left(), pen.y() - 2}, {pen.left() + 4, pen.y() + 2});
}

void common_contacts(const SymbolPen& pen) {
    if (pen.symbol.contacts.empty()) return;
    const Terminal* common = nullptr;
    for (const Terminal& terminal : pen.symbol.terminals) {
        const auto index = static_cast<int>(&terminal - pen.symbol.terminals.data());
        if (std::all_of(
                pen.symbol.contacts.begin(), pen.symbol.contacts.end(),
                [&](const DrawnContact& contact) { return contact.from == index || contact.to == index; })) {
            common = &terminal;
            break;
        }
    }
    if (common == nullptr) return;
    const double down = common->side == Side::top ? 1 : -1;
    const double end = common->side == Side::top ? pen.top() : pen.bottom();
    const double far = common->side == Side::top ? pen.bottom() : pen.top();
    const double bar = end + 2.5 * down;
    const double common_x = common->at.x;
    pen.stroke({{common_x, end}, {common_x, bar}});
    double first = common_x;
    double last = common_x;
    for (const DrawnContact& contact : pen.symbol.contacts) {
        const bool from_is_common = &pen.symbol.terminals[at(contact.from)] == common;
        const Place other = pen.pin(from_is_common ? contact.to : contact.from);
        pen.stroke({other, {other.x, far - 3.5 * down}});
        pen.lever({other.x, bar}, {other.x, far - 3.5 * down}, contact.closed_at_rest, -4);
        first = std::min(first, other.x);
        last = std::max(last, other.x);
    }
    pen.stroke({{first, bar}, {last, bar}});
    pen.canvas.polyline({{pen.left(), pen.y()}, {last - 1.5, pen.y()}}, SymbolPen::kDashed);
}

/// Which terminals each contact of a position joins into one, by the lowest of them.
std::vector<int> joined_in(const std::vector<DrawnContact>& contacts, int terminals) {
    std::vector<int> group(at(terminals));
    std::iota(group.begin(), group.end(), 0);
    for (const DrawnContact& contact : contacts) {
        const int from = group[at(contact.from)];
        const int to = group[at(contact.to)];
        std::replace(group.begin(), group.end(), std::max(from, to), std::min(from, to));
    }
    return group;
}

void contact_table(const SymbolPen& pen) {
    constexpr double kNames = 7;
    constexpr double kRow = 7;
    pen.box({pen.left(), pen.top()}, {pen.right(), pen.bottom()});
    const int terminals = static_cast<int>(pen.symbol.terminals.size());
    for (int i = 0; i < terminals; ++i)
        pen.canvas.polyline({{pen.pin(i).x, pen.top() + kNames}, {pen.pin(i).x, pen.bottom() - kNames}},
                            SymbolPen::kThin);
    for (std::size_t position = 0; position < pen.symbol.positions.size(); ++position) {
        const double y = pen.top() + kNames + kRow * (static_cast<double>(position) + 0.5);
        const std::vector<int> group = joined_in(pen.symbol.positions[position], terminals);
        double shift = -1.5;
        for (int first = 0; first < terminals; ++first) {
            if (std::count(group.begin(), group.end(), first) < 2) continue;
            std::vector<Place> joined;
            for (int i = 0; i < terminals; ++i)
                if (group[at(i)] == first) joined.push_back({pen.pin(i).x, y + shift});
            const auto by_x = [](const Place& a, const Place& b) { return a.x < b.x; };
            std::sort(joined.begin(), joined.end(), by_x);
            pen.canvas.polyline(joined, {kInk, 1.1, 0});
            for (const Place& place : joined) pen.canvas.disc(place, 1.4, kInk);
            shift = -shift;
        }
    }
}

void relay(const SymbolPen& pen) {
    const double middle = pen.y();
    pen.canvas.rectangle({pen.left(), pen.top()}, {pen.right(), pen.bottom()}, SymbolPen::kThin);
    const Place coil = pen.pin("86");
    pen.box({coil.x - 4, middle - 3}, {coil.x + 4, middle + 3});
    pen.canvas.polyline({{coil.x - 4, middle + 3}, {coil.x + 4, middle - 3}}, SymbolPen::kThin);
    for (const char* name : {"85", "86"}) {
        const Place end = pen.pin(name);
        pen.stroke({end, {end.x, end.y < middle ? middle - 3 : middle + 3}});
    }
    const Place common = pen.pin("30");
    const Place make = pen.pin("87");
    const double down = make.y > common.y ? 1 : -1;
    const Place pivot{common.x, common.y + 3.5 * down};
    const Place fixed{make.x, make.y - 3.5 * down};
    pen.stroke({common, pivot});
    pen.stroke({make, fixed});
    pen.lever(pivot, fixed, false, 4.5);
    pen.canvas.polyline({{coil.x + 4, middle}, {common.x + 2, middle}}, SymbolPen::kDashed);
    if (pen.terminal("87a") == nullptr) return;
    const Place rest = pen.pin("87a");
    pen.stroke({rest, {rest.x, rest.y - 3.5 * down}, {common.x + 4, rest.y - 3.5 * down}});
}

}  // namespace

bool draw_contact(const SymbolPen& pen) {
    switch (pen.symbol.shape) {
        case Shape::contact:
            return upright(pen), true;
        case Shape::push_contact:
            return push_contact(pen), true;
        case Shape::thermo_contact:
            return thermo_contact(pen), true;
        case Shape::circuit_breaker:
            return circuit_breaker(pen), true;
        case Shape::common_contacts:
            return common_contacts(pen), true;
        case Shape::contact_table:
            return contact_table(pen), true;
        case Shape::relay:
            return relay(pen), true;
        default:
            return false;
    }
}

}  // namespace halfsplit::view::diagram
