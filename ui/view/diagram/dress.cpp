#include <algorithm>

#include "engine/base/index.h"
#include "ui/view/diagram/piece.h"
#include "ui/view/diagram/piece_text.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

using Role = Label::Role;

class Dresser {
  public:
    Dresser(Piece& piece, const model::Part& part) : piece_(piece), part_(part) {}

    void dress() {
        switch (piece_.shape) {
            case Shape::box:
            case Shape::alternator:
            case Shape::sender:
            case Shape::flasher:
            case Shape::mechanism:
                return dress_unit();
            case Shape::contact_table:
                return dress_table();
            case Shape::coupling:
                return dress_coupling();
            case Shape::ground:
            case Shape::splice:
                return dress_point();
            default:
                return dress_upright();
        }
    }

  private:
    const std::string& pin_id(const Port& port) const { return part_.pins[at(port.pin)].id; }

    void say(const std::string& text, Role role, Spot left_top) {
        if (text.empty()) return;
        piece_.labels.push_back(
            {text,
             role,
             part_.id,
             {left_top.x, left_top.y, left_top.x + text_width(text), left_top.y + kLineHeight}});
    }

    void say_lines(const std::vector<std::string>& lines, Spot left_top, Role rest) {
        for (int i = 0; i < static_cast<int>(lines.size()); ++i)
            say(lines[at(i)], i == 0 ? Role::part : rest, {left_top.x, left_top.y + i * kLineHeight});
    }

    /// Everything between two stubs, pins named beside them, texts to the right.
    void dress_upright() {
        int last = 0;
        for (const Port& port : piece_.ports)
            if (port.pin >= 0) last = std::max(last, port.slot);
        const int bottom = kTwoPoleHeight - kStub;
        piece_.ink = {kHalfSlot - 6, kStub, slot_middle(last) + 6, bottom};
        const int middle = kTwoPoleHeight / 2;
        for (Port& port : piece_.ports) {
            if (port.pin < 0) continue;
            const int x = slot_middle(port.slot);
            const bool is_top = port.side == Side::top;
            port.at = {x, is_top ? kStub : bottom};
            say(pin_id(port), Role::pin, {x + 2, is_top ? 0 : bottom});
        }
        link_at_side();
        const auto lines = lines_beside(part_, piece_);
        const int text_top = std::max(0, middle - static_cast<int>(lines.size()) * kLineHeight / 2);
        say_lines(lines, {piece_.text_x, text_top}, Role::title);
    }

    void name_pins_inside() {
        for (Port& port : piece_.ports) {
            const bool is_top = port.side == Side::top;
            port.at = {slot_middle(port.slot), is_top ? piece_.ink.top : piece_.ink.bottom};
            if (port.pin < 0) continue;
            const int left = port.at.x - (text_width(pin_id(port)) + 1) / 2;
            say(pin_id(port), Role::inside,
                {std::max(left, piece_.ink.left + 1),
                 is_top ? piece_.ink.top + 1 : piece_.ink.bottom - 1 - kLineHeight});
        }
    }

    /// A mechanism takes hold of a switch at its side.
    void link_at_side() {
        for (Port& port : piece_.ports) {
            if (port.pin >= 0) continue;
            port.at = {slot_middle(port.slot), (piece_.ink.top + piece_.ink.bottom) / 2};
            piece_.link = {{piece_.ink.right, port.at.y}, port.at};
        }
    }

    void dress_unit() {
        piece_.ink = {1, 0, piece_.width * kSlot - 1, piece_.height};
        name_pins_inside();
        const auto lines = lines_inside(part_, piece_.width);
        const int names = piece_.shape == Shape::mechanism ? 2 : kLineHeight + 3;
        const int first = piece_.ink.top + names + pictogram_height(piece_.shape);
        say_lines(lines, {4, first}, Role::inside);
        for (auto label = piece_.labels.end() - static_cast<int>(lines.size()); label != piece_.labels.end();
             ++label)
            label->role = Role::inside;
    }

    void dress_table() {
        const int right = piece_.body * kSlot - 1;
        const int rows = static_cast<int>(part_.positions.size());
        piece_.ink = {1, 0, right, 2 * (kLineHeight + 1) + rows * kTableRow};
        name_pins_inside();
        link_at_side();
        const int text_x = right - table_text_slots(part_) * kSlot + 2;
        for (int row = 0; row < rows; ++row)
            say(part_.positions[at(row)].id, Role::inside, {text_x, kLineHeight + 1 + row * kTableRow});
        say_lines(lines_beside(part_, piece_), {piece_.text_x, 0}, Role::title);
    }

    void dress_coupling() {
        piece_.ink = {kHalfSlot - 4, 1, kHalfSlot + 4, kCouplingHeight - 1};
        for (Port& port : piece_.ports) {
            const bool is_top = port.side == Side::top;
            port.at = {kHalfSlot, is_top ? piece_.ink.top : piece_.ink.bottom};
            say(is_top ? part_.id + "." + pin_id(port) : pin_id(port), Role::pin,
                {piece_.text_x, is_top ? 1 : 1 + kLineHeight});
        }
    }

    void dress_point() {
        const bool is_ground = piece_.shape == Shape::ground;
        piece_.ink =
            is_ground ? Box{kHalfSlot - 7, 2, kHalfSlot + 7, 11} : Box{kHalfSlot - 2, 2, kHalfSlot + 2, 6};
        for (Port& port : piece_.ports) port.at = {kHalfSlot, piece_.ink.top};
        say_lines(lines_beside(part_, piece_), {piece_.text_x, 0}, Role::title);
    }

    Piece& piece_;
    const model::Part& part_;
};

}  // namespace

void dress(Piece& piece, const model::Circuit& circuit) {
    piece.labels.clear();
    Dresser(piece, circuit.parts[at(piece.part)]).dress();
}

}  // namespace halfsplit::view::diagram
