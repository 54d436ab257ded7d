#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "engine/practice/draft/draft.h"
#include "engine/practice/scenario/write_scenario.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/dictionary_options.h"
#include "ui/cli/progress.h"
#include "ui/view/table.h"

namespace halfsplit::cli {

namespace {

namespace fs = std::filesystem;

struct DraftCommandOptions {
    DictionaryCommandOptions dictionary;
    practice::DraftOptions draft;
    std::string folder = ".";
};

std::string href_from(const std::string& folder, const std::string& circuit) {
    std::error_code error;
    const fs::path relative = fs::relative(circuit, folder, error);
    return (error || relative.empty() ? fs::path(circuit) : relative).generic_string();
}

/// A name that is not taken yet.
std::string path_in(const std::string& folder, const std::string& id) {
    for (int number = 1;; ++number) {
        const std::string name = id + (number > 1 ? "-" + std::to_string(number) : "") + ".scenario.xml";
        std::string path = (fs::path(folder) / name).string();
        if (!fs::exists(path)) return path;
    }
}

int write_drafts(const std::vector<practice::Draft>& drafts, const model::Circuit& circuit,
                 const DraftCommandOptions& options) {
    std::error_code error;
    fs::create_directories(options.folder, error);
    const std::string href = href_from(options.folder, options.dictionary.file);
    for (const practice::Draft& draft : drafts) {
        const std::string path = path_in(options.folder, draft.scenario.id);
        if (const int status = write_out(practice::written_scenario(draft.scenario, circuit, href), path);
            status != kDone)
            return status;
        std::cout << path << ": " << draft.scenario.title << "; best strategy "
                  << view::fixed(draft.fairness.way.minutes(), 1) << " min, "
                  << draft.fairness.suspects_at_first << " suspects at first\n";
    }
    return kDone;
}

int run_draft(const DraftCommandOptions& options) {
    const auto on_disk = files::read_circuit_on_disk(options.dictionary.file);
    if (!on_disk) return refused(on_disk.error(), kAnswerIsNo);
    const auto states = states_asked_for(on_disk->circuit, options.dictionary);
    if (!states) return refused(states.error(), kUsage);
    auto dictionary = dictionary_of(*on_disk, options.dictionary, *states, {});
    if (!dictionary) return refused(dictionary.error(), kAnswerIsNo);
    auto consultation = diagnosis::Consultation::on(on_disk->circuit, std::move(*dictionary));
    if (!consultation) return refused(consultation.error(), kAnswerIsNo);
    Progress progress;
    const auto drafts = practice::draft_scenarios(on_disk->circuit, std::move(*consultation), options.draft,
                                                  [&](int tried, int found) {
                                                      progress.tell([&](std::ostream& out) {
                                                          out << "tried " << tried << " faults, " << found
                                                              << " of " << options.draft.count << " drafts";
                                                      });
                                                  });
    if (const int status = write_drafts(drafts, on_disk->circuit, options); status != kDone) return status;
    const int found = static_cast<int>(drafts.size());
    if (found == options.draft.count) return kDone;
    return refused(
        {problem("the circuit has no more than " + std::to_string(found) + " at level " +
                 std::to_string(options.draft.level) + "; another level, or another circuit, is expected")},
        kAnswerIsNo);
}

}  // namespace

void add_draft_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "draft", "Propose scenarios of a level, each proved to be fair, for a trainer to edit");
    const auto options = std::make_shared<DraftCommandOptions>();
    add_dictionary_options(*command, options->dictionary);
    command->add_option("--level", options->draft.level, "How hard, 1 is easy")
        ->check(CLI::Range(1, practice::kLevels))
        ->type_name("LEVEL");
    command->add_option("--count", options->draft.count, "How many")
        ->check(CLI::Range(1, 100))
        ->type_name("COUNT");
    command->add_option("--seed", options->draft.seed, "The same number leads to the same drafts")
        ->type_name("NUMBER");
    command->add_option("-o,--folder", options->folder, "Where to write them; nothing there is overwritten")
        ->type_name("FOLDER");
    command->callback([options, &exit_status] { exit_status = run_draft(*options); });
}

}  // namespace halfsplit::cli
