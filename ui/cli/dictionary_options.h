#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "ui/files/text_files.h"

namespace CLI {
class App;
}

namespace halfsplit::cli {

/// What every command that needs a circuit's dictionary takes.
struct DictionaryCommandOptions {
    std::string file;
    std::vector<std::string> states;  ///< empty: those of the file itself, without what it includes
    bool no_cache = false;
};

void add_dictionary_options(CLI::App& command, DictionaryCommandOptions& options);

/// The states asked for, or errors for those the circuit does not have.
tl::expected<std::vector<std::string>, Diagnostics> states_asked_for(const model::Circuit& circuit,
                                                                     const DictionaryCommandOptions& options);

/// Tells on standard error how far predicting is.
diagnosis::TellDictionary tell_predictions();

/// Kept or made now, with progress. `further_states`, `further_findings`: what is needed besides.
tl::expected<diagnosis::Dictionary, Diagnostics> dictionary_of(
    const files::CircuitOnDisk& circuit, const DictionaryCommandOptions& options,
    std::vector<std::string> states, const std::vector<diagnosis::Finding>& further_findings);

}  // namespace halfsplit::cli
