#include "ui/cli/circuit_options.h"

#include <CLI/CLI.hpp>
#include <iostream>

#include "engine/base/nearest.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"

namespace halfsplit::cli {

namespace {

using Steps = std::vector<model::StateStep>;

/// The state's steps, then what was set by hand: as one would at the vehicle.
tl::expected<Steps, Diagnostics> steps_asked_for(const model::Circuit& circuit,
                                                 const CircuitOptions& options) {
    Steps steps;
    Diagnostics problems;
    if (!options.state.empty()) {
        if (const model::OperatingState* state = circuit.find_state(options.state)) {
            steps = state->steps;
        } else {
            std::vector<std::string> known;
            for (const model::OperatingState& each : circuit.states) known.push_back(each.id);
            problems.push_back(problem("the circuit has no state '" + options.state + "'" +
                                       did_you_mean(options.state, known) + "; it has " + listed(known)));
        }
    }
    for (const std::string& set : options.sets) {
        const std::size_t equals = set.find('=');
        if (equals == std::string::npos || equals == 0)
            problems.push_back(problem("--set " + set + ": WHAT=VALUE was expected"));
        else
            steps.emplace_back(model::SetStep{set.substr(0, equals), set.substr(equals + 1), {}});
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return steps;
}

tl::expected<network::Situation, Diagnostics> situation_asked_for(const model::Circuit& circuit,
                                                                  const CircuitOptions& options) {
    network::Situation situation;
    Diagnostics problems;
    for (const std::string& text : options.faults) {
        auto fault = network::parse_fault(circuit, text);
        if (fault)
            situation.faults.push_back(std::move(*fault));
        else
            problems.push_back(problem("--fault " + text + ": " + fault.error()));
    }
    situation.unplugged = {options.unplugged.begin(), options.unplugged.end()};
    situation.pulled = {options.pulled.begin(), options.pulled.end()};
    if (!problems.empty()) return tl::unexpected(problems);
    return situation;
}

tl::expected<simulation::Settled, Diagnostics> settle_as_asked(const model::Circuit& circuit,
                                                               const CircuitOptions& options) {
    const auto steps = steps_asked_for(circuit, options);
    if (!steps) return tl::unexpected(steps.error());
    const auto situation = situation_asked_for(circuit, options);
    if (!situation) return tl::unexpected(situation.error());
    return simulation::settle(circuit, *situation, *steps);
}

}  // namespace

void add_circuit_options(CLI::App& command, CircuitOptions& options) {
    command.add_option("circuit", options.file, "Circuit file (.circuit.xml)")
        ->required()
        ->type_name("CIRCUIT");
    command
        .add_option("--state", options.state, "Operating state to put it in; without, everything is at rest")
        ->type_name("ID");
    command
        .add_option("--set", options.sets,
                    "Set a switch, a part's condition or a quantity, after the state (repeatable)")
        ->type_name("WHAT=VALUE")
        ->allow_extra_args(false);
    command
        .add_option("--fault", options.faults,
                    "Fault, as in open:W31 or high-resistance:E2=2 (repeatable; see 'faults')")
        ->type_name("KIND:WHERE[=VALUE]")
        ->allow_extra_args(false);
    command.add_option("--unplug", options.unplugged, "Part this plug or coupling (repeatable)")
        ->type_name("PLUG")
        ->allow_extra_args(false);
    command.add_option("--pull", options.pulled, "Take this fuse or relay out of its socket (repeatable)")
        ->type_name("FUSE")
        ->allow_extra_args(false);
}

void add_format_option(CLI::App& command, std::string& format, const std::vector<std::string>& choices) {
    format = choices.front();
    command.add_option("--format", format, "How to print it")
        ->check(CLI::IsMember(choices))
        ->capture_default_str();
}

int with_settled_circuit(const CircuitOptions& options,
                         const std::function<int(const model::Circuit&, const simulation::Settled&)>& then) {
    const auto circuit = read_circuit_file(options.file);
    if (!circuit) {
        print(circuit.error());
        return kAnswerIsNo;
    }
    const auto settled = settle_as_asked(*circuit, options);
    if (!settled) {
        print(settled.error());
        return kUsage;
    }
    return then(*circuit, *settled);
}

tl::expected<simulation::Settled, Diagnostics> settle_without_faults(const model::Circuit& circuit,
                                                                     const CircuitOptions& options) {
    CircuitOptions sound = options;
    sound.faults.clear();
    return settle_as_asked(circuit, sound);
}

}  // namespace halfsplit::cli
