#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>
#include <numeric>

#include "engine/base/nearest.h"
#include "engine/diagnosis/next_test/think_ahead.h"
#include "engine/diagnosis/suspects/from_filled.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/cli/dictionary_options.h"
#include "ui/view/advice_text.h"

namespace halfsplit::cli {

namespace {

using diagnosis::Dictionary;
using diagnosis::FilledRow;

struct SuspectsOptions {
    DictionaryCommandOptions dictionary;
    std::string readings;
    std::vector<std::string> cleared;
    bool complaint = false;
    int most = view::kMostSuspects;
    std::string format;
};

/// The states to test in, and those that something was read in.
std::vector<std::string> with_states_of(const model::Circuit& circuit, std::vector<std::string> states,
                                        const std::vector<FilledRow>& rows) {
    for (const FilledRow& row : rows) {
        const std::string& id = circuit.states[at(row.state)].id;
        if (std::ranges::find(states, id) == states.end()) states.push_back(id);
    }
    return states;
}

tl::expected<std::vector<int>, Diagnostics> cleared_of(const Dictionary& dictionary,
                                                       const std::vector<std::string>& cleared) {
    std::vector<std::string> names;
    for (const auto& each : dictionary.faults) names.push_back(each.fault.text);
    Diagnostics problems;
    std::vector<int> indices;
    for (const std::string& text : cleared) {
        const auto found = std::ranges::find(names, text);
        if (found == names.end())
            problems.push_back(
                problem("the circuit cannot have the fault '" + text + "'" + did_you_mean(text, names)));
        else
            indices.push_back(static_cast<int>(found - names.begin()));
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return indices;
}

int run_suspects(const SuspectsOptions& options) {
    const auto on_disk = files::read_circuit_on_disk(options.dictionary.file);
    if (!on_disk) return refused(on_disk.error(), kAnswerIsNo);
    const model::Circuit& circuit = on_disk->circuit;
    const auto states = states_asked_for(circuit, options.dictionary);
    if (!states) return refused(states.error(), kUsage);
    const auto rows = read_text(options.readings).and_then([&](const std::string& text) {
        return diagnosis::read_readings(circuit, text, options.readings);
    });
    if (!rows) return refused(rows.error(), kAnswerIsNo);

    auto dictionary = dictionary_of(*on_disk, options.dictionary, with_states_of(circuit, *states, *rows),
                                    diagnosis::further_findings(circuit, *rows));
    if (!dictionary) return refused(dictionary.error(), kAnswerIsNo);
    const auto cleared = cleared_of(*dictionary, options.cleared);
    if (!cleared) return refused(cleared.error(), kUsage);
    const diagnosis::Evidence evidence{diagnosis::readings_of(circuit, *dictionary, *rows), *cleared,
                                       options.complaint};
    const auto consultation = diagnosis::Consultation::on(circuit, std::move(*dictionary));
    if (!consultation) return refused(consultation.error(), kAnswerIsNo);
    if (!leaves_anything((*consultation)->hypotheses(), evidence))
        return refused({problem("all that could be noticed has been cleared: nothing is left to suspect")},
                       kAnswerIsNo);

    std::vector<int> to_test_in(states->size());
    std::iota(to_test_in.begin(), to_test_in.end(), 0);
    diagnosis::Advice advice =
        (*consultation)->advise(evidence, to_test_in, diagnosis::Patience::until_settled);
    // Nobody takes a reading meanwhile: what is thought ahead counts at once.
    for (int portion = 0; portion < diagnosis::kPortionsAhead && (*consultation)->think_ahead(advice);
         ++portion)
        advice = (*consultation)->advise(evidence, to_test_in, diagnosis::Patience::until_settled);
    std::cout << (options.format == "json" ? view::advice_json(**consultation, advice, options.most) + "\n"
                                           : view::advice_text(**consultation, advice, options.most));
    return kDone;
}

}  // namespace

void add_suspects_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "suspects", "What may be the matter after some readings, and what to measure or repair next");
    const auto options = std::make_shared<SuspectsOptions>();
    add_dictionary_options(*command, options->dictionary);
    command
        ->add_option("--readings", options->readings,
                     "The sheet's CSV, as the sheet command writes it or a spreadsheet saves it, its column "
                     "measured filled in, and yes in its column complaint where the customer told of it and "
                     "it was seen in the workshop too")
        ->required()
        ->type_name("FILE.csv");
    command
        ->add_option("--cleared", options->cleared,
                     "This fault was looked for and is not there, or was repaired in vain (repeatable)")
        ->type_name("FAULT")
        ->allow_extra_args(false);
    command->add_flag("--complaint", options->complaint,
                      "Something is certainly wrong; without, it may be that nothing is");
    command->add_option("--most", options->most, "How many suspects to tell, at most")
        ->check(CLI::Range(1, 1000))
        ->type_name("COUNT");
    add_format_option(*command, options->format, {"text", "json"});
    command->callback([options, &exit_status] { exit_status = run_suspects(*options); });
}

}  // namespace halfsplit::cli
