#include "ui/view/session_names.h"

namespace halfsplit::view {

std::vector<std::string> verb_words() {
    std::vector<std::string> words;
    for (const practice::VerbSpec& spec : practice::verbs()) words.emplace_back(spec.word);
    return words;
}

std::vector<std::string> names_in(const practice::Scenario& scenario, const model::Circuit& circuit) {
    std::vector<std::string> names = scenario.instruments;
    for (const model::OperatingState& state : circuit.states) names.push_back(state.id);
    for (const model::Quantity& quantity : circuit.quantities) names.push_back(quantity.id);
    for (const model::Wire& wire : circuit.wires) names.push_back(wire.id);
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        const model::Part& each = circuit.parts[static_cast<std::size_t>(part)];
        names.push_back(each.id);
        for (const model::Position& position : each.positions) names.push_back(each.id + "=" + position.id);
        if (is_one_point(each)) continue;
        for (int pin = 0; pin < static_cast<int>(each.pins.size()); ++pin)
            names.push_back(circuit.point_name({part, pin}));
    }
    names.emplace_back("body");
    return names;
}

}  // namespace halfsplit::view
