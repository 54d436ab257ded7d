#include "engine/network/part_electrics.h"

#include <algorithm>

namespace halfsplit::network {

model::Quantities complete_quantities(const model::Circuit& circuit, const model::Quantities& set) {
    model::Quantities all;
    for (const model::Quantity& quantity : circuit.quantities) {
        const auto given = set.find(quantity.id);
        all[quantity.id] = given == set.end() ? quantity.value : given->second;
    }
    return all;
}

model::Electrics electrics_of(const model::Circuit& circuit, const model::Part& part,
                              const std::vector<double>& numbers, const model::Quantities& quantities,
                              const model::Ailments& ailments) {
    if (part.kind->electrics == nullptr) return {};
    const model::PartView view(part, numbers, quantities, circuit.nominal_v, ailments);
    model::Electrics electrics = part.kind->electrics(view);
    electrics.felt = view.felt();
    return electrics;
}

std::vector<std::string> contact_elements(const model::Circuit& circuit, const model::Part& part) {
    std::vector<std::string> names;
    for (const model::Element& element :
         electrics_of(circuit, part, part.numbers, complete_quantities(circuit, {})).elements)
        if (element.contact && std::ranges::find(names, element.name) == names.end())
            names.push_back(element.name);
    return names;
}

}  // namespace halfsplit::network
