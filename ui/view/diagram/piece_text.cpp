#include "ui/view/diagram/piece_text.h"

#include <algorithm>

#include "engine/base/index.h"
#include "ui/view/diagram/text_metrics.h"

namespace halfsplit::view::diagram {

namespace {

constexpr int kMostLinesBeside = 4;
constexpr int kMostLinesInside = 3;
constexpr int kMostSlots = 8;

std::string heading(const model::Part& part) {
    const std::string value = value_text(part);
    return value.empty() ? part.id : part.id + " " + value;
}

std::vector<std::string> lines_in(const model::Part& part, int width) {
    std::vector<std::string> lines{heading(part)};
    for (std::string& line : wrapped(part.title, width)) lines.push_back(std::move(line));
    return lines;
}

bool fit(const std::vector<std::string>& lines, int width, int most) {
    return static_cast<int>(lines.size()) <= most &&
           std::all_of(lines.begin(), lines.end(),
                       [&](const std::string& line) { return text_width(line) <= width; });
}

/// The fewest slots that hold the lines; where even kMostSlots do not, as many as the longest word needs.
int fewest_slots(const model::Part& part, int taken, int most_lines) {
    int slots = 1;
    while (slots < kMostSlots &&
           !fit(lines_in(part, slots * kSlot - taken), slots * kSlot - taken, most_lines))
        ++slots;
    for (const std::string& line : lines_in(part, slots * kSlot - taken))
        slots = std::max(slots, (text_width(line) + taken + kSlot - 1) / kSlot);
    return slots;
}

}  // namespace

std::vector<std::string> lines_beside(const model::Part& part, const Piece& piece) {
    return lines_in(part, piece.width * kSlot - piece.text_x - 1);
}

int width_beside(const model::Part& part, int text_x) {
    return fewest_slots(part, text_x + 1, kMostLinesBeside);
}

int text_gap(const model::Part& part, const Piece& piece) {
    int widest = 0;
    for (const Port& port : piece.ports)
        if (port.pin >= 0) widest = std::max(widest, text_width(part.pins[at(port.pin)].id));
    return std::max(9, widest + 5);
}

int width_inside(const model::Part& part) {
    return fewest_slots(part, 6, kMostLinesInside);
}

std::vector<std::string> lines_inside(const model::Part& part, int width) {
    return lines_in(part, width * kSlot - 6);
}

int unit_height(const model::Part& part, const Piece& piece) {
    const int names = 2 * (kLineHeight + 1);
    if (piece.shape == Shape::contact_table) {
        const int rows = static_cast<int>(part.positions.size()) * kTableRow;
        return std::max(names + rows, static_cast<int>(lines_beside(part, piece).size()) * kLineHeight);
    }
    const int text = static_cast<int>(lines_inside(part, piece.width).size()) * kLineHeight;
    if (piece.shape == Shape::mechanism) return text + 4;
    return names + text + pictogram_height(piece.shape) + 4;
}

int pictogram_height(Shape shape) {
    const bool has_one = shape == Shape::alternator || shape == Shape::sender || shape == Shape::flasher;
    return has_one ? kPictogram : 0;
}

int table_text_slots(const model::Part& part) {
    int widest = 0;
    for (const model::Position& position : part.positions) widest = std::max(widest, text_width(position.id));
    return (widest + 4) / kSlot + 1;
}

bool is_changeover(const model::Part& part) {
    for (std::size_t i = 0; i < part.kind->words.size(); ++i)
        if (part.kind->words[i].name == "contacts") return part.words.at(i) == "changeover";
    return false;
}

}  // namespace halfsplit::view::diagram
