#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/model/chart/read_chart.h"
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

bool check_circuit(const std::string& file) {
    const auto circuit = read_circuit_file(file);
    const Diagnostics problems = circuit ? problems_of_states(*circuit, file) : circuit.error();
    print(problems);
    if (!problems.empty()) return false;
    std::cout << file << ": no errors; " << circuit->title << ", " << circuit->parts.size() << " parts, "
              << circuit->wires.size() << " wires, " << circuit->states.size() << " states\n";
    return true;
}

/// A behaviour alone: whether its pins and drivers exist shows with the circuit that uses it.
bool check_behaviour(const std::string& file) {
    const auto chart = read_text(file).and_then(
        [&](const std::string& text) { return model::chart::read_chart(text, file); });
    if (!chart) {
        print(chart.error());
        return false;
    }
    std::cout << file << ": no errors; a behaviour of " << chart->states.size() - 1 << " states\n";
    return true;
}

bool check_file(const std::string& file) {
    return file.ends_with(".scxml") ? check_behaviour(file) : check_circuit(file);
}

}  // namespace

void add_check_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("check", "Read circuits and behaviours and print every error");
    const auto files = std::make_shared<std::vector<std::string>>();
    command->add_option("files", *files, "Circuits (.circuit.xml) and behaviours (.scxml)")
        ->required()
        ->type_name("FILE");
    command->callback([files, &exit_status] {
        exit_status = kDone;
        for (const std::string& file : *files)
            if (!check_file(file)) exit_status = kAnswerIsNo;
    });
}

}  // namespace halfsplit::cli
