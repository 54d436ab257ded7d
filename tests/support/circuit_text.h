#pragma once

#include <string>
#include <string_view>

#include "engine/model/circuit.h"
#include "engine/simulation/settle.h"

namespace halfsplit::test {

/// A circuit from the inside of its `<parts>` and `<harness>`, all else as little as the format allows.
/// Ends the test with the reader's diagnostics where it has errors.
model::Circuit circuit_of(std::string_view parts, std::string_view harness, std::string_view quantities = "",
                          std::string_view states = "", double nominal_v = 12);

/// A circuit file of the project, by its path below the top folder.
model::Circuit circuit_file(const std::string& path);

/// Reads files below the project's top folder.
std::string file_text(const std::string& path);

/// Faults by their texts.
std::vector<network::Fault> faults_of(const model::Circuit& circuit, const std::vector<std::string>& texts);

/// At rest, with these sets ("S1=on") and faults. Ends the test with the problems where there is no rest.
simulation::Settled settled(const model::Circuit& circuit, const std::vector<std::string>& sets = {},
                            const std::vector<std::string>& faults = {});

double volts_at(const simulation::Settled& settled, const std::string& point);
double amperes_in(const simulation::Settled& settled, const std::string& branch);
std::string condition_of(const model::Circuit& circuit, const simulation::Settled& settled,
                         const std::string& part);

}  // namespace halfsplit::test
