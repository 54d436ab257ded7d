#include <algorithm>
#include <array>

#include "engine/base/index.h"
#include "ui/view/diagram/piece.h"
#include "ui/view/diagram/piece_text.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

/// All that decides how a part is laid out.
struct PartToPlace {
    const model::Circuit& circuit;
    int index;
    const model::Part& part;
    const Heights& heights;
    const std::vector<bool>& is_wired;
    bool is_linked;

    double height_of(int pin) const { return heights.of({index, pin}); }
    int pin_count() const { return static_cast<int>(part.pins.size()); }
    bool is_above(std::string_view upper, std::string_view lower) const {
        return Heights::is_above(height_of(pin(upper)), height_of(pin(lower)));
    }
    int pin(std::string_view id) const { return model::find_pin_index(part, id).value_or(0); }
};

Piece piece_for(const PartToPlace& given, Shape shape) {
    Piece piece;
    piece.part = given.index;
    piece.shape = shape;
    return piece;
}

Side opposite(Side side) {
    return side == Side::top ? Side::bottom : Side::top;
}

/// Room for the texts to the right of slot `last`.
void size_beside(Piece& piece, const PartToPlace& given, int last) {
    piece.text_x = slot_middle(last) + text_gap(given.part, piece);
    if (given.is_linked) {
        piece.ports.push_back({-1, Side::bottom, last + 1});
        piece.text_x = slot_middle(last + 1) + 4;
    }
    piece.width = width_beside(given.part, piece.text_x);
    const int lines = static_cast<int>(lines_beside(given.part, piece).size());
    piece.height = std::max(kTwoPoleHeight, lines * kLineHeight);
}

Piece two_pole(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    const bool is_turned = Heights::is_above(given.height_of(1), given.height_of(0));
    piece.ports = {{0, is_turned ? Side::bottom : Side::top, 0},
                   {1, is_turned ? Side::top : Side::bottom, 0}};
    size_beside(piece, given, 0);
    return piece;
}

Piece one_common(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    const int common = shape == Shape::twin_lamp ? given.pin("31") : common_pin(given.part);
    const bool is_above =
        !Heights::is_above(given.heights.mean(given.index, common), given.height_of(common));
    const Side side = is_above ? Side::top : Side::bottom;
    const int others = given.pin_count() - 1;
    int slot = 0;
    for (int pin = 0; pin < given.pin_count(); ++pin) {
        if (pin == common)
            piece.ports.push_back({pin, side, std::max(0, (others - 1) / 2)});
        else
            piece.ports.push_back({pin, opposite(side), slot++});
    }
    piece.free_order = true;
    size_beside(piece, given, std::max(0, others - 1));
    return piece;
}

Piece chain(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    const double mean = given.heights.mean(given.index);
    for (int pin = 0; pin < given.pin_count(); ++pin)
        piece.ports.push_back(
            {pin, Heights::is_above(given.height_of(pin), mean) ? Side::top : Side::bottom, pin});
    size_beside(piece, given, given.pin_count() - 1);
    return piece;
}

Piece relay(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    const bool coil_turned = given.is_above("85", "86");
    const int fixed_contact = given.pin("87a");
    const bool has_87a = is_changeover(given.part) || given.is_wired[at(fixed_contact)];
    const bool contact_turned = given.is_above("87", "30");
    const Side contact_foot = contact_turned ? Side::top : Side::bottom;
    for (int pin = 0; pin < given.pin_count(); ++pin) {
        const std::string& id = given.part.pins[at(pin)].id;
        if (id == "86") piece.ports.push_back({pin, coil_turned ? Side::bottom : Side::top, 0});
        if (id == "85") piece.ports.push_back({pin, coil_turned ? Side::top : Side::bottom, 0});
        if (id == "30") piece.ports.push_back({pin, opposite(contact_foot), 1});
        if (id == "87") piece.ports.push_back({pin, contact_foot, 1});
        if (id == "87a" && has_87a) piece.ports.push_back({pin, contact_foot, 2});
    }
    size_beside(piece, given, has_87a ? 2 : 1);
    return piece;
}

Side unit_side(const PartToPlace& given, Shape shape, int pin) {
    const std::string& id = given.part.pins[at(pin)].id;
    if (shape == Shape::alternator) return id == "B-" ? Side::bottom : Side::top;
    if (shape == Shape::sender) return id == "+" ? Side::top : Side::bottom;
    if (shape == Shape::flasher) return id == "49" ? Side::top : Side::bottom;
    if (!given.is_wired[at(pin)]) return Side::bottom;
    return Heights::is_above(given.height_of(pin), given.heights.middle(given.index)) ? Side::top
                                                                                      : Side::bottom;
}

/// Slots from one pin of a unit to the next, so that their names have room side by side.
int pin_pitch(const model::Part& part) {
    int widest = 0;
    for (const model::Pin& pin : part.pins) widest = std::max(widest, text_width(pin.id));
    return (widest + 2) / kSlot + 1;
}

Piece unit(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    const int pitch = pin_pitch(given.part);
    piece.free_order = shape != Shape::contact_table;
    std::array<int, 2> next{0, 0};
    for (int pin = 0; pin < given.pin_count(); ++pin) {
        const Side side = unit_side(given, shape, pin);
        int& slot = next.at(piece.free_order && side == Side::bottom ? 1 : 0);
        piece.ports.push_back({pin, side, slot});
        slot += pitch;
    }
    const int pins_width = std::max({next[0], next[1], 1});
    if (shape == Shape::contact_table) {
        piece.body = pins_width + table_text_slots(given.part);
        piece.text_x = piece.body * kSlot + 3;
        if (given.is_linked) {
            piece.ports.push_back({-1, Side::bottom, piece.body});
            piece.text_x += kSlot;
        }
        piece.width = width_beside(given.part, piece.text_x);
        piece.height = unit_height(given.part, piece);
        return piece;
    }
    piece.width = std::max(pins_width, width_inside(given.part));
    // Pins stand in the middle of their side, so that a narrow side is not all to the left.
    for (Port& port : piece.ports) {
        const int used = port.side == Side::bottom ? next[1] : next[0];
        port.slot += (piece.width - used) / 2;
    }
    piece.height = unit_height(given.part, piece);
    return piece;
}

std::vector<Piece> contact_pairs(const PartToPlace& given) {
    std::vector<Piece> pieces;
    const auto add_pair = [&](int pin) {
        Piece piece = piece_for(given, Shape::coupling);
        const bool is_turned = Heights::is_above(given.height_of(pin + 1), given.height_of(pin));
        piece.ports = {{pin, is_turned ? Side::bottom : Side::top, 0},
                       {pin + 1, is_turned ? Side::top : Side::bottom, 0}};
        const int text = std::max(text_width(given.part.id + "." + given.part.pins[at(pin)].id),
                                  text_width(given.part.id + "." + given.part.pins[at(pin + 1)].id));
        piece.text_x = kHalfSlot + 6;
        piece.width = (piece.text_x + text) / kSlot + 1;
        piece.height = kCouplingHeight;
        pieces.push_back(piece);
    };
    for (int pin = 0; pin + 1 < given.pin_count(); pin += 2)
        if (given.is_wired[at(pin)] || given.is_wired[at(pin + 1)]) add_pair(pin);
    if (pieces.empty() && given.pin_count() >= 2) add_pair(0);
    return pieces;
}

Piece point(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    if (given.is_wired[0]) piece.ports = {{0, Side::top, 0}};
    piece.text_x = kHalfSlot + 9;
    piece.width = width_beside(given.part, piece.text_x);
    const int lines = static_cast<int>(lines_beside(given.part, piece).size());
    piece.height = std::max(2 * kLineHeight, lines * kLineHeight);
    return piece;
}

Piece mechanism(const PartToPlace& given, Shape shape) {
    Piece piece = piece_for(given, shape);
    if (given.is_linked) piece.ports = {{-1, Side::top, 0}};
    piece.width = width_inside(given.part);
    piece.height = unit_height(given.part, piece);
    return piece;
}

}  // namespace

std::vector<Piece> pieces_of(const model::Circuit& circuit, int part, const Heights& heights,
                             const std::vector<bool>& is_wired, bool is_linked) {
    const model::Part& subject_part = circuit.parts[at(part)];
    const PartToPlace given{circuit, part, subject_part, heights, is_wired, is_linked};
    const KindPicture picture = picture_of(subject_part);
    switch (picture.arrangement) {
        case Arrangement::two_pole:
            return {two_pole(given, picture.shape)};
        case Arrangement::unit:
            return {unit(given, picture.shape)};
        case Arrangement::one_common:
            return {one_common(given, picture.shape)};
        case Arrangement::chain:
            return {chain(given, picture.shape)};
        case Arrangement::relay:
            return {relay(given, picture.shape)};
        case Arrangement::contacts:
            return contact_pairs(given);
        case Arrangement::point:
            return {point(given, picture.shape)};
        case Arrangement::none:
            return {mechanism(given, picture.shape)};
    }
    return {};
}

}  // namespace halfsplit::view::diagram
