#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/cli/tell_debrief.h"
#include "ui/files/replayed_session.h"

namespace halfsplit::cli {

namespace {

struct DebriefOptions {
    std::string log;
    std::string scenarios;
    DebriefOutput output;
};

int run_debrief(const DebriefOptions& options) {
    files::ScenarioShelf shelf;
    if (!options.scenarios.empty()) shelf.add_folder(options.scenarios);
    const auto again = files::replayed(options.log, shelf, telling_of_replay());
    if (!again) return refused({problem(again.error())}, kAnswerIsNo);
    if (!again->session.is_over())
        return refused(
            {problem(options.log + ": the vehicle has not been handed back yet; practise goes on")},
            kAnswerIsNo);
    return tell_debrief(again->session, again->scenario->read, again->head.who, options.output);
}

}  // namespace

void add_debrief_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "debrief",
        "How a session of practice went: its log is done again, and every step looked at from behind");
    const auto options = std::make_shared<DebriefOptions>();
    command->add_option("log", options->log, "The session's log (.session.jsonl)")
        ->required()
        ->type_name("FILE");
    command->add_option("--scenarios", options->scenarios, "Where its job is, if it was moved")
        ->type_name("FOLDER");
    command->add_option("-o,--output", options->output.file, "Write an HTML page instead, to print on A4")
        ->type_name("FILE.html");
    command->add_flag("--no-cache", options->output.no_cache, "Neither read nor keep .NAME.dictionary files");
    command->callback([options, &exit_status] { exit_status = run_debrief(*options); });
}

}  // namespace halfsplit::cli
