#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/instruments/instrument.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/view/settled_json.h"

namespace halfsplit::cli {

namespace {

struct MeasureOptions {
    CircuitOptions circuit;
    std::string format;
    std::string instrument;
    instruments::Leads leads;
};

std::string reading_text(const instruments::Reading& reading) {
    const instruments::Instrument* instrument = instruments::find_instrument(reading.instrument);
    std::string text = std::string(instrument->title) + " at " + reading.at;
    if (!reading.against.empty()) text += " against " + reading.against;
    text += ": " + reading.shown + "\n";
    for (const std::string& caution : reading.cautions) text += "  caution: " + caution + "\n";
    return text;
}

int take_reading(const model::Circuit& circuit, const simulation::Settled& settled,
                 const MeasureOptions& options) {
    const auto reading = instruments::measure({circuit, settled}, options.instrument, options.leads);
    if (!reading) {
        print(reading.error());
        return kUsage;
    }
    std::cout << (options.format == "json" ? view::reading_json(*reading) + "\n" : reading_text(*reading));
    return kDone;
}

std::string instrument_list() {
    std::string text = "Instruments:\n";
    for (const instruments::Instrument& each : instruments::instruments())
        text += "  " + std::string(each.id) + ": " + std::string(each.text) + "\n";
    return text;
}

}  // namespace

void add_measure_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "measure", "One reading, as the instrument shows it while it loads the circuit");
    const auto options = std::make_shared<MeasureOptions>();
    add_circuit_options(*command, options->circuit);
    command->add_option("--with", options->instrument, "Instrument (below)")
        ->required()
        ->type_name("INSTRUMENT");
    command
        ->add_option("--at", options->leads.at,
                     "Where: a point (M3.1, or M3.1@part behind its plug); in series, a wire or plug contact")
        ->required()
        ->type_name("POINT");
    command->add_option("--against", options->leads.against, "The other lead's point")
        ->type_name("POINT")
        ->capture_default_str();
    add_format_option(*command, options->format, {"text", "json"});
    command->footer(instrument_list());
    command->callback([options, &exit_status] {
        exit_status = with_settled_circuit(
            options->circuit, [&](const model::Circuit& circuit, const simulation::Settled& settled) {
                return take_reading(circuit, settled, *options);
            });
    });
}

}  // namespace halfsplit::cli
