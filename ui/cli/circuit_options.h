#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/model/circuit.h"
#include "engine/simulation/settle.h"

namespace CLI {
class App;
}

namespace halfsplit::cli {

/// What every command that looks at a circuit takes.
struct CircuitOptions {
    std::string file;
    std::string state;
    std::vector<std::string> sets;
    std::vector<std::string> faults;
    std::vector<std::string> unplugged;
    std::vector<std::string> pulled;
};

void add_circuit_options(CLI::App& command, CircuitOptions& options);

/// Adds --format with these choices, the first being what is taken where nobody asks.
void add_format_option(CLI::App& command, std::string& format, const std::vector<std::string>& choices);

/// Reads the circuit, brings it to rest as asked and hands both on. The exit status: that of `then`, or after
/// the problems were printed 1 for a file with errors or a circuit that does not rest, 2 for something that
/// is not there.
int with_settled_circuit(const CircuitOptions& options,
                         const std::function<int(const model::Circuit&, const simulation::Settled&)>& then);

/// As asked but for the faults: what the same points should read.
tl::expected<simulation::Settled, Diagnostics> settle_without_faults(const model::Circuit& circuit,
                                                                     const CircuitOptions& options);

}  // namespace halfsplit::cli
