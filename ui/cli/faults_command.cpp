#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/diagnosis/fault_universe.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/view/fault_table.h"

namespace halfsplit::cli {

void add_faults_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "faults", "Everything that can break in a circuit, and how often relative to the rest");
    struct Options {
        std::string file;
        std::string format;
    };
    const auto options = std::make_shared<Options>();
    command->add_option("circuit", options->file, "Circuit file (.circuit.xml)")
        ->required()
        ->type_name("CIRCUIT");
    add_format_option(*command, options->format, {"text", "json", "csv"});
    command->callback([options, &exit_status] {
        const auto circuit = read_circuit_file(options->file);
        if (!circuit) {
            print(circuit.error());
            exit_status = kAnswerIsNo;
            return;
        }
        const auto universe = diagnosis::fault_universe(*circuit);
        if (options->format == "json")
            std::cout << view::fault_json(*circuit, universe) << "\n";
        else if (options->format == "csv")
            std::cout << view::csv_text(view::fault_table(universe));
        else
            std::cout << circuit->title << ": " << universe.size() << " possible faults\n"
                      << view::aligned_text(view::fault_table(universe), "  ");
        exit_status = kDone;
    });
}

}  // namespace halfsplit::cli
