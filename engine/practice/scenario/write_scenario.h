#pragma once

#include <string>

#include "engine/model/circuit.h"
#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

/// The scenario as a file, for people to edit: read_scenario() of it is the same scenario. `circuit_href`
/// leads from the file's folder to the circuit.
std::string written_scenario(const Scenario& scenario, const model::Circuit& circuit,
                             const std::string& circuit_href);

}  // namespace halfsplit::practice
