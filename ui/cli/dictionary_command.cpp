#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <numeric>

#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/dictionary_options.h"
#include "ui/view/test_table.h"

namespace halfsplit::cli {

namespace {

struct TableOptions {
    DictionaryCommandOptions dictionary;
    std::string output;
};

int run_dictionary(const TableOptions& options) {
    const auto circuit = files::read_circuit_on_disk(options.dictionary.file);
    if (!circuit) return refused(circuit.error(), kAnswerIsNo);
    const auto states = states_asked_for(circuit->circuit, options.dictionary);
    if (!states) return refused(states.error(), kUsage);
    auto dictionary = dictionary_of(*circuit, options.dictionary, *states, {});
    if (!dictionary) return refused(dictionary.error(), kAnswerIsNo);
    const auto consultation = diagnosis::Consultation::on(circuit->circuit, std::move(*dictionary));
    if (!consultation) return refused(consultation.error(), kAnswerIsNo);
    const auto table = view::named_table_of_tests(**consultation, (*consultation)->permitted().states);
    std::cerr << table.faults.size() << " rows (" << (*consultation)->dictionary().faults.size()
              << " faults and none; those that nothing tells from a sound vehicle are left out), "
              << table.tests.size() << " tests that part them differently\n";
    return write_out(view::test_table_csv(table), options.output);
}

}  // namespace

void add_dictionary_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "dictionary", "What each measurement shows with each fault, as a table that plan reads");
    const auto options = std::make_shared<TableOptions>();
    add_dictionary_options(*command, options->dictionary);
    command->add_option("-o,--output", options->output, "Where to write it; without, to standard output")
        ->type_name("FILE.csv");
    command->callback([options, &exit_status] { exit_status = run_dictionary(*options); });
}

}  // namespace halfsplit::cli
