#include <cstdlib>
#include <map>
#include <set>

#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/segments.h"

namespace halfsplit::test {

namespace {

using namespace view::diagram;

bool ends_at(const Diagram& diagram, const std::string& point, Spot spot) {
    for (const Symbol& symbol : diagram.symbols)
        for (const Terminal& terminal : symbol.terminals)
            if (terminal.point == point && terminal.at == spot) return true;
    for (const Rail& rail : diagram.rails) {
        if (rail.splice != point) continue;
        const Segment line{Segment::Of::rail, 0, rail.path.front(), rail.path.back()};
        if (is_on(line, spot)) return true;
    }
    return false;
}

/// The texts of a wire, in the order they are drawn, with blanks between them.
std::string text_beside(const Diagram& diagram, const WireLine& wire) {
    std::string text;
    for (const Label& label : diagram.labels) {
        if (label.role != Label::Role::wire || label.owner != wire.wire) continue;
        text += (text.empty() ? "" : " ") + label.text;
        // Beside it: no further to the right than the thickness of a line and some air.
        const bool is_beside = [&] {
            for (std::size_t i = 0; i + 1 < wire.path.size(); ++i) {
                const Segment line{Segment::Of::wire, 0, wire.path[i], wire.path[i + 1]};
                const int gap = label.box.left - line.box().right;
                if (!line.is_level() && gap >= 1 && gap <= 3 && line.box().top <= label.box.top &&
                    label.box.bottom <= line.box().bottom)
                    return true;
            }
            return false;
        }();
        if (!is_beside) text += " (astray)";
    }
    return text;
}

std::string two_decimals_at_most(double value) {
    std::string text = std::to_string(static_cast<long>(value * 100 + 0.5));
    while (text.size() < 3) text.insert(0, "0");
    text.insert(text.size() - 2, ".");
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

bool is_named(const Diagram& diagram, const Symbol& symbol, const Terminal& terminal) {
    if (terminal.name.empty()) return true;
    return std::any_of(diagram.labels.begin(), diagram.labels.end(), [&](const Label& label) {
        const bool is_name = label.text == terminal.name || label.text == symbol.part + "." + terminal.name;
        constexpr int kNear = 20;  // 1 cm
        return is_name && label.owner == symbol.part && std::abs(label.box.top - terminal.at.y) < kNear &&
               std::abs(label.box.left - terminal.at.x) < kNear;
    });
}

}  // namespace

std::vector<std::string> wires_amiss(const Diagram& diagram, const model::Circuit& circuit,
                                     const Selection& selection) {
    std::vector<std::string> complaints;
    std::map<std::string, int> drawn;
    for (const WireLine& wire : diagram.wires) {
        ++drawn[wire.wire];
        if (wire.path.size() < 2) {
            complaints.push_back(wire.wire + " has no length");
            continue;
        }
        for (std::size_t i = 0; i + 1 < wire.path.size(); ++i) {
            const bool is_level = wire.path[i].y == wire.path[i + 1].y;
            const bool is_upright = wire.path[i].x == wire.path[i + 1].x;
            if (is_level == is_upright) complaints.push_back(wire.wire + " is neither level nor upright");
        }
        if (!ends_at(diagram, wire.from, wire.path.front()))
            complaints.push_back(wire.wire + " does not begin at " + wire.from);
        if (!ends_at(diagram, wire.to, wire.path.back()))
            complaints.push_back(wire.wire + " does not end at " + wire.to);
        const model::Wire& real = *circuit.find_wire(wire.wire);
        if (circuit.point_name(real.from) != wire.from || circuit.point_name(real.to) != wire.to)
            complaints.push_back(wire.wire + " joins other points");
        const std::string expected =
            real.base_colour + real.tracer_colour + " " + two_decimals_at_most(real.area_mm2);
        if (const std::string text = text_beside(diagram, wire); text != expected)
            complaints.push_back(wire.wire + " says \"" + text + "\", not \"" + expected + "\"");
    }
    for (const int wire : selection.wires)
        if (const std::string& id = circuit.wires[static_cast<std::size_t>(wire)].id; drawn[id] != 1)
            complaints.push_back(id + " is drawn " + std::to_string(drawn[id]) + " times");
    if (drawn.size() != selection.wires.size()) complaints.push_back("wires nobody asked for are drawn");
    return complaints;
}

std::vector<std::string> parts_amiss(const Diagram& diagram, const model::Circuit& circuit,
                                     const Selection& selection) {
    std::vector<std::string> complaints;
    std::set<std::string> shown;
    std::set<std::string> points;
    for (const Symbol& symbol : diagram.symbols) {
        shown.insert(symbol.part);
        for (const Terminal& terminal : symbol.terminals) {
            points.insert(terminal.point);
            if (!is_named(diagram, symbol, terminal)) complaints.push_back("no name at " + terminal.point);
        }
        const bool has_id =
            std::any_of(diagram.labels.begin(), diagram.labels.end(), [&](const Label& label) {
                return label.owner == symbol.part && label.text.starts_with(symbol.part);
            });
        if (!has_id) complaints.push_back("no id at " + symbol.part);
    }
    for (const Rail& rail : diagram.rails) {
        shown.insert(rail.splice);
        const bool has_name =
            std::any_of(diagram.labels.begin(), diagram.labels.end(), [&](const Label& label) {
                return label.role == Label::Role::rail && label.owner == rail.splice;
            });
        if (!has_name) complaints.push_back("no name at rail " + rail.splice);
    }
    for (const int part : selection.parts)
        if (const std::string& id = circuit.parts[static_cast<std::size_t>(part)].id; !shown.contains(id))
            complaints.push_back(id + " is not drawn");
    return complaints;
}

std::vector<std::string> all_complaints(const Diagram& diagram, const model::Circuit& circuit,
                                        const Selection& selection) {
    std::vector<std::string> all;
    const auto take = [&](const std::vector<std::string>& complaints) {
        all.insert(all.end(), complaints.begin(), complaints.end());
    };
    take(lines_through_symbols(diagram));
    take(false_joints(diagram));
    take(illegible_texts(diagram));
    take(wires_amiss(diagram, circuit, selection));
    take(parts_amiss(diagram, circuit, selection));
    take(dots_amiss(diagram));
    take(out_of_bounds(diagram));
    return all;
}

}  // namespace halfsplit::test
