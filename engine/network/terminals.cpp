#include "engine/network/terminals.h"

#include <algorithm>

namespace halfsplit::network {

Terminals::Terminals(const model::Circuit& circuit) {
    add("body");
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        const model::Part& each = circuit.parts[static_cast<std::size_t>(part)];
        const int pins = static_cast<int>(each.pins.size());
        harness_base_.push_back(count());
        for (int pin = 0; pin < pins; ++pin) add(circuit.point_name({part, pin}));
        part_base_.push_back(each.plugged ? count() : harness_base_.back());
        if (!each.plugged) continue;
        for (int pin = 0; pin < pins; ++pin) add(circuit.point_name({part, pin}) + "@part");
    }
}

int Terminals::harness_side(int part, int pin) const {
    return harness_base_[static_cast<std::size_t>(part)] + pin;
}

int Terminals::part_side(int part, int pin) const {
    return part_base_[static_cast<std::size_t>(part)] + pin;
}

int Terminals::add_inner(std::string name) {
    return add(std::move(name));
}

int Terminals::add(std::string name) {
    parent_.push_back(count());
    names_.push_back(std::move(name));
    return count() - 1;
}

void Terminals::merge(int a, int b) {
    const int low = std::min(root(a), root(b));
    const int high = std::max(root(a), root(b));
    parent_[static_cast<std::size_t>(high)] = low;  // the lower stays root, so the body always does
}

int Terminals::root(int terminal) const {
    while (parent_[static_cast<std::size_t>(terminal)] != terminal)
        terminal = parent_[static_cast<std::size_t>(terminal)];
    return terminal;
}

}  // namespace halfsplit::network
