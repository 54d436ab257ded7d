#include "ui/cli/dictionary_options.h"

#include <CLI/CLI.hpp>
#include <memory>
#include <thread>

#include "engine/base/nearest.h"
#include "engine/model/own_states.h"
#include "ui/cli/progress.h"
#include "ui/files/dictionary_cache.h"

namespace halfsplit::cli {

void add_dictionary_options(CLI::App& command, DictionaryCommandOptions& options) {
    command.add_option("circuit", options.file, "Circuit file (.circuit.xml)")
        ->required()
        ->type_name("CIRCUIT");
    command
        .add_option(
            "--state", options.states,
            "Test only in this operating state (repeatable); without, in all that the file itself has")
        ->type_name("ID")
        ->allow_extra_args(false);
    command.add_flag("--no-cache", options.no_cache,
                     "Predict anew, and do not keep the predictions beside the circuit file");
}

tl::expected<std::vector<std::string>, Diagnostics> states_asked_for(
    const model::Circuit& circuit, const DictionaryCommandOptions& options) {
    std::vector<std::string> all;
    for (const model::OperatingState& state : circuit.states) all.push_back(state.id);
    if (all.empty())
        return tl::unexpected(Diagnostics{problem("the circuit has no operating states to test it in")});
    Diagnostics problems;
    for (const std::string& id : options.states)
        if (circuit.find_state(id) == nullptr)
            problems.push_back(problem("the circuit has no state '" + id + "'" + did_you_mean(id, all) +
                                       "; it has " + listed(all)));
    if (!problems.empty()) return tl::unexpected(problems);
    return options.states.empty() ? model::own_state_ids(circuit, options.file) : options.states;
}

diagnosis::TellDictionary tell_predictions() {
    const auto progress = std::make_shared<Progress>();
    return [progress](const diagnosis::DictionaryProgress& now) {
        progress->tell([&](std::ostream& out) {
            out << now.done << " of " << now.of << " predictions made (faults times states)";
        });
    };
}

tl::expected<diagnosis::Dictionary, Diagnostics> dictionary_of(
    const files::CircuitOnDisk& circuit, const DictionaryCommandOptions& options,
    std::vector<std::string> states, const std::vector<diagnosis::Finding>& further_findings) {
    const diagnosis::TellDictionary tell = tell_predictions();
    diagnosis::DictionaryOptions wanted;
    wanted.states = std::move(states);
    wanted.further_findings = further_findings;
    wanted.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    if (options.no_cache) return diagnosis::make_dictionary(circuit.circuit, wanted, tell);
    return files::kept_dictionary(circuit, options.file, wanted, tell);
}

}  // namespace halfsplit::cli
