#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/practice/session/replay.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/cli/prompt.h"
#include "ui/cli/tell_debrief.h"
#include "ui/files/practice_log.h"
#include "ui/view/session_names.h"
#include "ui/view/session_text.h"

namespace halfsplit::cli {

namespace {

using practice::Session;

struct PractiseOptions {
    std::string scenario;
    std::string log;
    std::string who;
    bool no_cache = false;
};

std::vector<std::string> first_words() {
    std::vector<std::string> words{"help", "job", "quit"};
    for (std::string& verb : view::verb_words()) words.push_back(std::move(verb));
    return words;
}

std::vector<std::string> further_words(const practice::Scenario& scenario, const model::Circuit& circuit) {
    std::vector<std::string> words = view::names_in(scenario, circuit);
    for (const char* subject : {"parts", "wires", "places", "states", "switches", "instruments"})
        words.emplace_back(subject);
    return words;
}

void print_help(const Session& session, const std::string& subject) {
    const std::string list = view::circuit_list_text(session.scenario(), session.circuit(), subject);
    if (!list.empty()) {
        std::cout << list;
        return;
    }
    std::cout << view::verbs_text()
              << "\n  job    shows the job card again\n"
                 "  help parts, wires, places, states, switches or instruments: what the diagram says\n"
                 "  quit   leaves; the same command goes on where you stood\n";
}

/// Whether the line was one that does nothing to the vehicle.
bool is_about_the_prompt(const std::string& line, const Session& session) {
    if (line == "help" || line.starts_with("help ")) {
        print_help(session, line.size() > 5 ? line.substr(5) : "");
        return true;
    }
    if (line != "job") return false;
    std::cout << view::job_card_text(session.scenario(), session.circuit());
    return true;
}

int talk(Session& session, files::SessionLog& log, const std::string& path) {
    Prompt prompt(first_words(), further_words(session.scenario(), session.circuit()));
    while (!session.is_over()) {
        const auto line = prompt.next("> ");
        if (!line || *line == "quit") {
            std::cout << "Kept in " << path << "; the same command goes on from here.\n";
            return kDone;
        }
        if (line->find_first_not_of(" \t\r") == std::string::npos || is_about_the_prompt(*line, session))
            continue;
        const auto action = practice::read_action(*line);
        const auto entry = action ? session.act(*action) : tl::unexpected(action.error());
        if (!entry) {
            std::cout << "  " << entry.error() << "\n";
            continue;
        }
        if (!log.append(*entry))
            return refused({problem(path + " cannot be written: nothing more is done")}, kAnswerIsNo);
        std::cout << view::entry_text(session.circuit(), *entry) << std::flush;
    }
    return kDone;
}

int run_practise(const PractiseOptions& options) {
    const auto scenario = files::read_scenario_on_disk(options.scenario);
    if (!scenario) return refused(scenario.error(), kAnswerIsNo);
    const std::string path = options.log.empty() ? files::default_log(*scenario) : options.log;
    auto log = files::open_log(path, *scenario, options.scenario,
                               options.who.empty() ? files::user_name() : options.who);
    if (!log) return refused({problem(log.error())}, kAnswerIsNo);
    auto session = Session::begin(scenario->read.scenario, scenario->read.circuit);
    if (!session) return refused({problem(session.error())}, kAnswerIsNo);
    if (const auto caught_up = practice::replay(*session, log->logged().entries, telling_of_replay());
        !caught_up)
        return refused({problem(path + ": " + caught_up.error())}, kAnswerIsNo);
    std::cout << view::job_card_text(session->scenario(), session->circuit());
    const std::size_t done = session->entries().size();
    std::cout << (done == 0 ? "\nhelp tells what can be done.\n"
                            : "\nGoing on after " + std::to_string(done) + " steps, " +
                                  view::clock_text(session->clock_min()) + ".\n");
    if (const int status = talk(*session, *log, path); status != kDone || !session->is_over()) return status;
    std::cout << "\n";
    return tell_debrief(*session, scenario->read, log->logged().head.who, {"", options.no_cache});
}

}  // namespace

void add_practise_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "practise", "Find a hidden fault: operate, look, measure, decide, repair, and be told how it went");
    const auto options = std::make_shared<PractiseOptions>();
    command->add_option("scenario", options->scenario, "The job (.scenario.xml)")
        ->required()
        ->type_name("FILE");
    command
        ->add_option("--log", options->log,
                     "The session's log; it goes on where it stood. Else ID.session.jsonl in this folder")
        ->type_name("FILE");
    command->add_option("--who", options->who, "Who practises, for the class table; else the user's name")
        ->type_name("NAME");
    command->add_flag("--no-cache", options->no_cache, "Neither read nor keep .NAME.dictionary files");
    command->callback([options, &exit_status] { exit_status = run_practise(*options); });
}

}  // namespace halfsplit::cli
