#include "ui/view/diagram/symbols.h"

#include <algorithm>
#include <map>

#include "engine/base/index.h"
#include "ui/view/diagram/path.h"

namespace halfsplit::view::diagram {

namespace {

using Indices = std::map<int, int>;  // pin -> terminal

std::vector<DrawnContact> drawn_contacts(const std::vector<model::Contact>& contacts,
                                         const Indices& terminals) {
    std::vector<DrawnContact> drawn;
    for (const model::Contact& contact : contacts) {
        const auto from = terminals.find(contact.from);
        const auto to = terminals.find(contact.to);
        if (from != terminals.end() && to != terminals.end())
            drawn.push_back({from->second, to->second, true});
    }
    return drawn;
}

/// Each contact once, as it stands in the first position.
std::vector<DrawnContact> at_rest(const std::vector<std::vector<DrawnContact>>& positions) {
    std::vector<DrawnContact> all;
    const auto joins_same = [](const DrawnContact& a, const DrawnContact& b) {
        return std::minmax(a.from, a.to) == std::minmax(b.from, b.to);
    };
    for (std::size_t position = 0; position < positions.size(); ++position)
        for (DrawnContact contact : positions[position]) {
            contact.closed_at_rest = position == 0;
            if (std::none_of(all.begin(), all.end(),
                             [&](const auto& known) { return joins_same(known, contact); }))
                all.push_back(contact);
        }
    return all;
}

/// Push buttons and thermo-switches: a word of the kind says how they rest.
bool rests_closed(const model::Part& part) {
    for (std::size_t i = 0; i < part.kind->words.size(); ++i)
        if (part.kind->words[i].name == "rest") return part.words.at(i) == "closed";
    return false;
}

}  // namespace

Symbol symbol_of(const Piece& piece, const model::Circuit& circuit, Spot from) {
    Symbol symbol;
    symbol.shape = piece.shape;
    symbol.ink = moved(piece.ink, from);
    const model::Part& part = circuit.parts[at(piece.part)];
    symbol.part = part.id;
    Indices terminals;
    for (const Port& port : piece.ports) {
        if (port.pin < 0) continue;
        terminals[port.pin] = static_cast<int>(symbol.terminals.size());
        symbol.terminals.push_back({circuit.point_name({piece.part, port.pin}),
                                    part.pins[at(port.pin)].id,
                                    port.side,
                                    {port.at.x + from.x, port.at.y + from.y}});
    }
    const bool is_contact = piece.shape == Shape::contact || piece.shape == Shape::common_contacts ||
                            piece.shape == Shape::contact_table;
    if (is_contact)
        for (const auto& contacts : contacts_of(part))
            symbol.positions.push_back(drawn_contacts(contacts, terminals));
    symbol.contacts = at_rest(symbol.positions);
    if (piece.shape == Shape::push_contact || piece.shape == Shape::thermo_contact)
        symbol.contacts = {{0, 1, rests_closed(part)}};
    return symbol;
}

}  // namespace halfsplit::view::diagram
