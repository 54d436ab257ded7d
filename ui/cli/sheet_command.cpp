#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/nearest.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/view/diagram/selection.h"
#include "ui/view/sheet_html.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::cli {

namespace {

const std::vector<std::string>& formats() {
    static const std::vector<std::string> all{"text", "html", "csv", "json"};
    return all;
}

struct SheetOptions {
    std::string file;
    std::vector<std::string> states;
    std::vector<std::string> only;
    std::string output;
    std::string format;
};

/// What was asked for that the circuit does not have, with the nearest it has.
Diagnostics missing(const model::Circuit& circuit, const SheetOptions& options) {
    Diagnostics problems;
    std::vector<std::string> states;
    for (const model::OperatingState& each : circuit.states) states.push_back(each.id);
    std::vector<std::string> parts;
    for (const model::Part& each : circuit.parts) parts.push_back(each.id);
    for (const std::string& id : options.states)
        if (circuit.find_state(id) == nullptr)
            problems.push_back(problem("the circuit has no state '" + id + "'" + did_you_mean(id, states) +
                                       "; it has " + listed(states)));
    for (const std::string& id : options.only)
        if (circuit.find_part(id) == nullptr)
            problems.push_back(problem("no part '" + id + "' in this circuit" + did_you_mean(id, parts)));
    if (circuit.states.empty())
        problems.push_back(problem("the circuit has no operating states; a sheet is about them"));
    return problems;
}

/// What the file's name says where nobody says it otherwise; "" where it says nothing we write.
std::string format_of(const SheetOptions& options) {
    if (!options.format.empty()) return options.format;
    if (options.output.empty()) return formats().front();
    for (const std::string& format : formats())
        if (options.output.ends_with("." + format)) return format;
    return options.output.ends_with(".txt") ? "text" : "";
}

std::string written(const std::string& format, const model::Circuit& circuit, const diagnosis::Sheet& sheet,
                    const std::vector<std::string>& only) {
    if (format == "csv") return csv_text(view::sheet_table(circuit, sheet));
    if (format == "json") return view::sheet_json(circuit, sheet) + "\n";
    if (format == "text") return view::sheet_text(circuit, sheet);
    return view::sheet_html(
        circuit, sheet,
        only.empty() ? view::diagram::everything(circuit) : view::diagram::ways_of(circuit, only));
}

int make(const SheetOptions& options) {
    const std::string format = format_of(options);
    if (format.empty()) {
        std::cerr << "halfsplit: " << options.output
                  << ": a name that ends in .html, .csv, .json or .txt was expected, or --format\n";
        return kUsage;
    }
    const auto circuit = read_circuit_file(options.file);
    if (!circuit) {
        print(circuit.error());
        return kAnswerIsNo;
    }
    if (const Diagnostics problems = missing(*circuit, options); !problems.empty()) {
        print(problems);
        return kUsage;
    }
    Progress progress;
    diagnosis::SheetOptions wanted;
    for (const std::string& id : options.states)
        wanted.states.push_back(static_cast<int>(circuit->find_state(id) - circuit->states.data()));
    if (!options.only.empty()) wanted.parts = view::diagram::ways_of(*circuit, options.only).parts;
    wanted.tell = [&](int done, int all) {
        progress.tell([&](std::ostream& out) { out << done << " of " << all << " states worked out"; });
    };
    const auto sheet = make_sheet(*circuit, wanted);
    if (!sheet) {
        print(sheet.error());
        return kAnswerIsNo;
    }
    return write_out(written(format, *circuit, *sheet, options.only), options.output);
}

}  // namespace

void add_sheet_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "sheet",
        "A test sheet: what should be found where, in each state, within which limits, with room to write");
    const auto options = std::make_shared<SheetOptions>();
    command->add_option("circuit", options->file, "Circuit file (.circuit.xml)")
        ->required()
        ->type_name("CIRCUIT");
    command->add_option("--state", options->states, "Only this operating state (repeatable); without, all")
        ->type_name("ID")
        ->allow_extra_args(false);
    command
        ->add_option("--only", options->only,
                     "Only these parts, with all on their ways to supply and ground (repeatable)")
        ->type_name("PART")
        ->allow_extra_args(false);
    command
        ->add_option("-o,--output", options->output,
                     "Where to write it: a page to print, or a table to fill in")
        ->type_name("FILE.html|FILE.csv");
    command
        ->add_option("--format", options->format,
                     "How to write it; without, as the file's name says, or as text to standard output")
        ->check(CLI::IsMember(formats()));
    command->callback([options, &exit_status] { exit_status = make(*options); });
}

}  // namespace halfsplit::cli
