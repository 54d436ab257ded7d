#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/model/chart/read_chart.h"
#include "engine/practice/scenario/structure.h"
#include "engine/simulation/settle.h"
#include "ui/cli/check_scenarios.h"
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

}  // namespace

void add_check_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "check",
        "Read circuits, behaviours and scenarios, print every error, and prove that scenarios are fair");
    struct Options {
        std::vector<std::string> files;
        ScenarioChecks checks;
        bool prints_schema = false;
    };
    const auto options = std::make_shared<Options>();
    command
        ->add_option("files", options->files,
                     "Circuits (.circuit.xml), behaviours (.scxml) and scenarios (.scenario.xml)")
        ->type_name("FILE");
    command->add_flag("--scenario-schema", options->prints_schema, "Print scenarios/scenario.xsd");
    command->add_flag("--way", options->checks.shows_way,
                      "Tell for each scenario how the best strategy goes about it (gives the fault away)");
    command->add_flag("--no-cache", options->checks.no_cache, "Neither read nor keep .NAME.dictionary files");
    command->callback([options, &exit_status] {
        exit_status = kDone;
        if (options->prints_schema) std::cout << practice::scenario_schema();
        if (options->files.empty() && !options->prints_schema)
            throw CLI::RequiredError("one file at least, or --scenario-schema,");
        std::vector<std::string> scenarios;
        for (const std::string& file : options->files) {
            if (file.ends_with(".scenario.xml"))
                scenarios.push_back(file);
            else if (!(file.ends_with(".scxml") ? check_behaviour(file) : check_circuit(file)))
                exit_status = kAnswerIsNo;
        }
        if (!check_scenarios(scenarios, options->checks)) exit_status = kAnswerIsNo;
    });
}

}  // namespace halfsplit::cli
