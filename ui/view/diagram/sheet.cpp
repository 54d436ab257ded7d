#include "ui/view/diagram/sheet.h"

#include <map>
#include <string_view>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

std::string_view word_of(const model::Part& part, std::string_view name) {
    for (std::size_t i = 0; i < part.kind->words.size(); ++i)
        if (part.kind->words[i].name == name) return part.words.at(i);
    return "";
}

/// A mechanism and a part it moves or is moved by.
struct Motion {
    int mechanism = 0;
    int part = 0;
};

std::vector<Motion> motions_in(const model::Circuit& circuit, const Selection& selection) {
    std::map<std::string_view, int> index;
    for (const int part : selection.parts) index.emplace(circuit.parts[at(part)].id, part);
    std::vector<Motion> motions;
    for (const int part : selection.parts) {
        const bool is_mechanism = circuit.parts[at(part)].kind->element == "mechanism";
        const auto other =
            index.find(word_of(circuit.parts[at(part)], is_mechanism ? "motor" : "operated-by"));
        if (other == index.end()) continue;
        motions.push_back(is_mechanism ? Motion{part, other->second} : Motion{other->second, part});
    }
    return motions;
}

class SheetMaker {
  public:
    SheetMaker(const model::Circuit& circuit, const Selection& selection, const Heights& heights)
        : circuit_(circuit),
          selection_(selection),
          heights_(heights),
          motions_(motions_in(circuit, selection)) {}

    Sheet make() {
        note_what_is_joined();
        for (const int part : selection_.parts) add_part(part);
        for (const int wire : selection_.wires) {
            const model::Wire& drawn = circuit_.wires[at(wire)];
            sheet_.leads.push_back({wire, -1, end_at(drawn.from), end_at(drawn.to)});
        }
        for (const Motion& motion : motions_)
            sheet_.leads.push_back(
                {-1, motion.part, end_at({motion.part, -1}), end_at({motion.mechanism, -1})});
        return std::move(sheet_);
    }

  private:
    void note_what_is_joined() {
        is_wired_.resize(circuit_.parts.size());
        is_linked_.assign(circuit_.parts.size(), false);
        for (std::size_t part = 0; part < circuit_.parts.size(); ++part)
            is_wired_[part].assign(circuit_.parts[part].pins.size(), false);
        for (const int wire : selection_.wires)
            for (const model::PinRef pin : {circuit_.wires[at(wire)].from, circuit_.wires[at(wire)].to})
                is_wired_[at(pin.part)][at(pin.pin)] = true;
        for (const Motion& motion : motions_)
            is_linked_[at(motion.mechanism)] = is_linked_[at(motion.part)] = true;
    }

    void add_part(int part) {
        const bool is_splice = circuit_.parts[at(part)].kind->element == "splice";
        if (is_splice && is_wired_[at(part)][0]) {
            ends_[{part, 0}] = {-1, -1, static_cast<int>(sheet_.splices.size())};
            sheet_.splices.push_back({part, ""});
            return;
        }
        for (Piece& piece : pieces_of(circuit_, part, heights_, is_wired_[at(part)], is_linked_[at(part)])) {
            for (int port = 0; port < static_cast<int>(piece.ports.size()); ++port)
                ends_[{part, piece.ports[at(port)].pin}] = {static_cast<int>(sheet_.pieces.size()), port, -1};
            sheet_.pieces.push_back(std::move(piece));
        }
    }

    End end_at(model::PinRef pin) const { return ends_.at({pin.part, pin.pin}); }

    const model::Circuit& circuit_;
    const Selection& selection_;
    const Heights& heights_;
    std::vector<Motion> motions_;
    std::vector<std::vector<bool>> is_wired_;
    std::vector<bool> is_linked_;
    std::map<std::pair<int, int>, End> ends_;
    Sheet sheet_;
};

}  // namespace

const Port& Sheet::port(const End& end) const {
    return pieces.at(at(end.piece)).ports.at(at(end.port));
}

std::vector<std::vector<int>> Sheet::lead_counts() const {
    std::vector<std::vector<int>> counts;
    for (const Piece& piece : pieces) counts.emplace_back(piece.ports.size(), 0);
    for (const Lead& lead : leads)
        for (const End& end : {lead.a, lead.b})
            if (!end.is_splice()) ++counts[at(end.piece)][at(end.port)];
    return counts;
}

Sheet sheet_of(const model::Circuit& circuit, const Selection& selection, const Heights& heights) {
    return SheetMaker(circuit, selection, heights).make();
}

}  // namespace halfsplit::view::diagram
