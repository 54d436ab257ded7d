#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"
#include "engine/model/read_circuit.h"
#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

/// A scenario with the circuit it is about.
struct ScenarioWithCircuit {
    Scenario scenario;
    model::Circuit circuit;
    std::string circuit_path;
};

/// Reads a scenario file and the circuit it names. Every error that can be found is returned, each with its
/// place.
tl::expected<ScenarioWithCircuit, Diagnostics> read_scenario(const std::string& path,
                                                             const model::TextSource& source);

/// Where the circuit is that a scenario at `from` names: `href` counts from the scenario's folder and may
/// lead up from it. A message where it is no relative path of a circuit file.
tl::expected<std::string, std::string> circuit_path_of(std::string_view from, std::string_view href);

}  // namespace halfsplit::practice
