#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/simulation/settle.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"

namespace halfsplit::cli {

namespace {

/// A circuit file is right when it reads and every state it offers comes to rest.
Diagnostics problems_of_states(const model::Circuit& circuit, const std::string& file) {
    Diagnostics problems;
    for (const model::OperatingState& state : circuit.states) {
        const auto settled = simulation::settle(circuit, {}, state.steps);
        if (settled) continue;
        for (const Diagnostic& problem : settled.error())
            problems.push_back({problem.where.line > 0 ? problem.where
                                                       : Location{file, state.where.line, state.where.column},
                                "state '" + state.id + "': " + problem.message});
    }
    return problems;
}

bool check_file(const std::string& file) {
    const auto circuit = read_circuit_file(file);
    const Diagnostics problems = circuit ? problems_of_states(*circuit, file) : circuit.error();
    print(problems);
    if (!problems.empty()) return false;
    std::cout << file << ": no errors; " << circuit->title << ", " << circuit->parts.size() << " parts, "
              << circuit->wires.size() << " wires, " << circuit->states.size() << " states\n";
    return true;
}

}  // namespace

void add_check_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("check", "Read circuits and print every error");
    const auto files = std::make_shared<std::vector<std::string>>();
    command->add_option("files", *files, "Circuit files")->required()->type_name("FILE");
    command->callback([files, &exit_status] {
        exit_status = kDone;
        for (const std::string& file : *files)
            if (!check_file(file)) exit_status = kAnswerIsNo;
    });
}

}  // namespace halfsplit::cli
