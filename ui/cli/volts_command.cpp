#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>

#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/view/point_rows.h"
#include "ui/view/settled_json.h"

namespace halfsplit::cli {

namespace {

struct VoltsOptions {
    CircuitOptions circuit;
    std::string format;
    std::vector<std::string> only;
};

std::string heading(const model::Circuit& circuit, const VoltsOptions& options,
                    const simulation::Settled& settled) {
    std::string text = circuit.title;
    if (const model::OperatingState* state = circuit.find_state(options.circuit.state))
        text += ": " + state->title;
    text += "\n";
    const std::string conditions = view::conditions_text(circuit, settled);
    text += conditions.empty() ? "Everything at rest\n" : "With " + conditions + "\n";
    for (const network::Fault& fault : settled.situation.faults)
        text += "Fault " + fault.text + ": " + std::string(fault.spec->text) + "\n";
    return text;
}

void keep_only(const std::vector<std::string>& parts, std::vector<view::PointRow>& rows) {
    if (parts.empty()) return;
    std::erase_if(rows, [&](const view::PointRow& row) {
        return std::ranges::none_of(parts, [&](const std::string& part) {
            return row.point == part || row.point.starts_with(part + ".");
        });
    });
}

int print_text(const model::Circuit& circuit, const VoltsOptions& options,
               const simulation::Settled& settled) {
    std::vector<view::PointRow> rows = view::point_rows(circuit, settled);
    keep_only(options.only, rows);
    std::vector<view::PointRow> expected;
    if (!settled.situation.faults.empty()) {
        const auto sound = settle_without_faults(circuit, options.circuit);
        if (!sound) {
            print(sound.error());
            return kAnswerIsNo;
        }
        expected = view::point_rows(circuit, *sound);
        keep_only(options.only, expected);
    }
    const view::Table points = view::point_table(rows, expected.empty() ? nullptr : &expected);
    if (options.format == "csv") {
        std::cout << view::csv_text(points);
        return kDone;
    }
    std::cout << heading(circuit, options, settled) << "\nPotentials against the body\n"
              << view::aligned_text(points, "  ");
    if (options.only.empty())
        std::cout << "\nCurrents\n"
                  << view::aligned_text(view::current_table(view::current_rows(circuit, settled)), "  ");
    return kDone;
}

}  // namespace

void add_volts_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "volts", "Potentials of all points and currents of all elements, in a state, with faults");
    const auto options = std::make_shared<VoltsOptions>();
    add_circuit_options(*command, options->circuit);
    command->add_option("--only", options->only, "Only the points of these parts (repeatable; text and csv)")
        ->type_name("PART")
        ->allow_extra_args(false);
    add_format_option(*command, options->format, {"text", "json", "csv"});
    command->callback([options, &exit_status] {
        exit_status = with_settled_circuit(
            options->circuit, [&](const model::Circuit& circuit, const simulation::Settled& settled) {
                if (options->format != "json") return print_text(circuit, *options, settled);
                std::cout << view::settled_json(circuit, options->circuit.state, settled) << "\n";
                return kDone;
            });
    });
}

}  // namespace halfsplit::cli
