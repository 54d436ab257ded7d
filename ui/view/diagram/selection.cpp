#include "ui/view/diagram/selection.h"

#include <algorithm>

#include "engine/base/index.h"

namespace halfsplit::view::diagram {

namespace {

template <class Chosen>
Selection select(const model::Circuit& circuit, const Chosen& chosen) {
    Selection selection;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (chosen(circuit.parts[at(part)])) selection.parts.push_back(part);
    const auto has = [&](int part) {
        return std::binary_search(selection.parts.begin(), selection.parts.end(), part);
    };
    for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire)
        if (has(circuit.wires[at(wire)].from.part) && has(circuit.wires[at(wire)].to.part))
            selection.wires.push_back(wire);
    return selection;
}

}  // namespace

Selection everything(const model::Circuit& circuit) {
    return select(circuit, [](const model::Part&) { return true; });
}

Selection parts_named(const model::Circuit& circuit, const std::vector<std::string>& part_ids) {
    return select(circuit, [&](const model::Part& part) {
        return std::find(part_ids.begin(), part_ids.end(), part.id) != part_ids.end();
    });
}

}  // namespace halfsplit::view::diagram
