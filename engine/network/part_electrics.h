#pragma once

#include <string>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/model/part_view.h"

namespace halfsplit::network {

/// The circuit's quantities, each as set or else as its author gave it.
model::Quantities complete_quantities(const model::Circuit& circuit, const model::Quantities& set);

/// What the part is electrically with these numbers (one per number its kind declares) and ailments.
model::Electrics electrics_of(const model::Circuit& circuit, const model::Part& part,
                              const std::vector<double>& numbers, const model::Quantities& quantities,
                              const model::Ailments& ailments = {});

/// Names of the part's switching contacts, each of which can fail on its own.
std::vector<std::string> contact_elements(const model::Circuit& circuit, const model::Part& part);

}  // namespace halfsplit::network
