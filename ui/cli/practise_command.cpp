#include <CLI/CLI.hpp>
#include <boost/uuid/random_generator.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <memory>

#include "engine/base/nearest.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/cli/prompt.h"
#include "ui/cli/tell_debrief.h"
#include "ui/files/scenario_file.h"
#include "ui/files/session_file.h"
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

std::string now_utc() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm parts{};
    gmtime_r(&now, &parts);
    char text[32];
    const std::size_t size = std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return {text, size};
}

std::string user_name() {
    const char* name = std::getenv("USER");
    return name == nullptr || *name == '\0' ? "somebody" : name;
}

bool is_over(const files::LoggedSession& logged) {
    return !logged.entries.empty() && logged.entries.back().action.verb == practice::Verb::done;
}

/// The log to go on with, or the name of a new one: the first of ID.session.jsonl, ID-2.session.jsonl … that
/// is not there, or of this very job and not over.
std::string default_log(const files::ScenarioOnDisk& scenario) {
    for (int number = 1;; ++number) {
        std::string path =
            scenario.read.scenario.id + (number > 1 ? "-" + std::to_string(number) : "") + ".session.jsonl";
        if (!files::holds_session(path)) return path;
        const auto logged = files::read_session(path);
        if (logged && !is_over(*logged) && logged->head.content == scenario.content) return path;
    }
}

tl::expected<files::SessionLog, std::string> open_log(const std::string& path,
                                                      const files::ScenarioOnDisk& scenario,
                                                      const PractiseOptions& options) {
    if (!files::holds_session(path))
        return files::SessionLog::begin(
            path,
            {to_string(boost::uuids::random_generator()()), options.who.empty() ? user_name() : options.who,
             scenario.read.scenario.id, options.scenario, scenario.content, now_utc()});
    auto log = files::SessionLog::resume(path);
    if (log && log->logged().head.content != scenario.content)
        return tl::unexpected(path + " is a session on " + log->logged().head.file +
                              ", or this job was changed since; name another file with --log");
    return log;
}

std::vector<std::string> verb_words() {
    std::vector<std::string> words{"help", "job", "quit"};
    for (const practice::VerbSpec& spec : practice::verbs()) words.emplace_back(spec.word);
    return words;
}

std::vector<std::string> names_in(const practice::Scenario& scenario, const model::Circuit& circuit) {
    std::vector<std::string> names = scenario.instruments;
    for (const char* subject : {"parts", "wires", "places", "states", "switches", "instruments"})
        names.emplace_back(subject);
    for (const model::OperatingState& state : circuit.states) names.push_back(state.id);
    for (const model::Quantity& quantity : circuit.quantities) names.push_back(quantity.id);
    for (const model::Wire& wire : circuit.wires) names.push_back(wire.id);
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        const model::Part& each = circuit.parts[static_cast<std::size_t>(part)];
        names.push_back(each.id);
        for (const model::Position& position : each.positions) names.push_back(each.id + "=" + position.id);
        if (is_one_point(each)) continue;
        for (int pin = 0; pin < static_cast<int>(each.pins.size()); ++pin)
            names.push_back(circuit.point_name({part, pin}));
    }
    names.emplace_back("body");
    return names;
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
    Prompt prompt(verb_words(), names_in(session.scenario(), session.circuit()));
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
    const std::string path = options.log.empty() ? default_log(*scenario) : options.log;
    auto log = open_log(path, *scenario, options);
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
