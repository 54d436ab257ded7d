#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>

#include "engine/practice/verdict/verdict.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/cli/dictionary_options.h"
#include "ui/cli/progress.h"
#include "ui/files/known_circuits.h"
#include "ui/files/replayed_session.h"
#include "ui/files/results_store.h"
#include "ui/view/results_text.h"

namespace halfsplit::cli {

namespace {

namespace fs = std::filesystem;

struct ResultsOptions {
    std::string database = "results.db";
    std::vector<std::string> logs;
    std::string scenarios;
    std::string who;
    std::string format;
    std::string output;
    bool no_cache = false;
};

std::vector<std::string> logs_in(const std::vector<std::string>& paths) {
    std::vector<std::string> logs;
    for (const std::string& path : paths) {
        std::error_code error;
        if (!fs::is_directory(path, error)) {
            logs.push_back(path);
            continue;
        }
        std::vector<std::string> found;
        for (fs::recursive_directory_iterator each(path, error), end; !error && each != end;
             each.increment(error))
            if (each->path().string().ends_with(".session.jsonl")) found.push_back(each->path().string());
        std::ranges::sort(found);
        logs.insert(logs.end(), found.begin(), found.end());
    }
    return logs;
}

/// Jobs with their best strategies, each worked out once.
class Jobs {
  public:
    Jobs(bool no_cache, std::vector<practice::Job> known)
        : circuits_(!no_cache, tell_predictions()), known_(std::move(known)) {}

    tl::expected<practice::Job, Diagnostics> of(const files::ScenarioOnDisk& scenario) {
        const auto known = std::ranges::find(known_, scenario.content, &practice::Job::content);
        if (known != known_.end()) return *known;
        const practice::Scenario& read = scenario.read.scenario;
        const auto expertise = circuits_.expertise_on(scenario.read);
        if (!expertise) return tl::unexpected(expertise.error());
        const double best_min = practice::best_way(*expertise).minutes();
        known_.push_back({scenario.content, read.id, read.title, scenario.read.circuit.title,
                          practice::skill_of(scenario.read.circuit, read.faults), read.level, best_min,
                          read.budget_min});
        return known_.back();
    }

  private:
    files::KnownCircuits circuits_;
    std::vector<practice::Job> known_;
};

practice::Result result_of(const files::ReplayedSession& again) {
    const practice::Verdict verdict = practice::verdict_of(again.session, {});
    return {again.head.id,
            again.head.who,
            again.head.content,
            again.head.begun,
            verdict.is_over,
            verdict.is_right,
            verdict.minutes,
            verdict.questions,
            verdict.hints,
            verdict.slips,
            static_cast<int>(verdict.for_nothing.size())};
}

tl::expected<void, std::string> import_one(const std::string& log, files::ScenarioShelf& shelf, Jobs& jobs,
                                           files::ResultsStore& store) {
    const auto again = files::replayed(log, shelf);
    if (!again) return tl::unexpected(again.error());
    const auto job = jobs.of(*again->scenario);
    if (!job) return tl::unexpected(to_text(job.error().front()));
    return store.put(*job, result_of(*again));
}

int run_import(const ResultsOptions& options) {
    const std::vector<std::string> logs = logs_in(options.logs);
    if (logs.empty()) return refused({problem("no session's log (.session.jsonl) is there")}, kUsage);
    auto store = files::ResultsStore::open(options.database);
    if (!store) return refused({problem(store.error())}, kAnswerIsNo);
    const auto before = store->all();
    if (!before) return refused({problem(options.database + ": " + before.error())}, kAnswerIsNo);
    files::ScenarioShelf shelf;
    if (!options.scenarios.empty()) shelf.add_folder(options.scenarios);
    Jobs jobs(options.no_cache, before->jobs);
    Progress progress;
    Diagnostics problems;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        progress.tell(
            [&](std::ostream& out) { out << "imported " << i << " of " << logs.size() << " logs"; });
        if (const auto done = import_one(logs[i], shelf, jobs, *store); !done)
            problems.push_back(problem(done.error()));
    }
    for (const auto& scenario : shelf.all())
        if (const auto job = jobs.of(*scenario)) store->put(*job);
    const auto after = store->all();
    if (!after) return refused({problem(options.database + ": " + after.error())}, kAnswerIsNo);
    std::cout << options.database << ": " << logs.size() - problems.size() << " of " << logs.size()
              << " logs read; " << after->results.size() << " sessions in all, "
              << after->results.size() - before->results.size() << " of them new\n";
    return problems.empty() ? kDone : refused(problems, kAnswerIsNo);
}

int with_results(const ResultsOptions& options,
                 const std::function<int(const practice::ClassResults&)>& then) {
    if (!fs::exists(options.database))
        return refused({problem(options.database + ": no such file; import some sessions first")},
                       kAnswerIsNo);
    const auto store = files::ResultsStore::open(options.database);
    if (!store) return refused({problem(store.error())}, kAnswerIsNo);
    const auto all = store->all();
    return all ? then(*all) : refused({problem(options.database + ": " + all.error())}, kAnswerIsNo);
}

std::string shown(const practice::ClassResults& results, const std::string& format) {
    if (format == "json") return view::results_json(results);
    if (format == "jsonl") return view::sessions_json_lines(results);
    if (format == "html") return view::results_html(results);
    if (format == "csv") return view::csv_text(view::session_table(results));
    return "The class\n" + view::aligned_text(view::standing_table(practice::class_table(results)), "  ") +
           "\nBy skill\n" + view::aligned_text(view::standing_table(practice::skill_table(results)), "  ");
}

int run_next(const ResultsOptions& options) {
    return with_results(options, [&](const practice::ClassResults& results) {
        const auto next = practice::practise_next(results, options.who);
        if (!next) return refused({problem("there are no results of '" + options.who + "'")}, kUsage);
        std::cout << view::recommendation_text(options.who, *next);
        return kDone;
    });
}

void add_database_option(CLI::App& command, ResultsOptions& options) {
    command
        .add_option("--db", options.database, "The results, one SQLite file; else results.db in this folder")
        ->type_name("FILE");
}

}  // namespace

void add_results_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand("results", "How a class did, and what to practise next");
    command->require_subcommand(1);
    const auto options = std::make_shared<ResultsOptions>();

    CLI::App* import =
        command->add_subcommand("import", "Take session logs in; one that is there already counts once");
    add_database_option(*import, *options);
    import->add_option("logs", options->logs, "Logs (.session.jsonl), or folders of them")
        ->required()
        ->type_name("FILE");
    import->add_option("--scenarios", options->scenarios, "Where the jobs are, and those to recommend")
        ->type_name("FOLDER");
    import->add_flag("--no-cache", options->no_cache, "Neither read nor keep .NAME.dictionary files");
    import->callback([options, &exit_status] { exit_status = run_import(*options);
});

CLI::App* show =
    command->add_subcommand("show", "The class table and skills; csv and jsonl: a row a session");
add_database_option(*show, *options);
add_format_option(*show, options->format, {"text", "csv", "json", "jsonl", "html"});
show->add_option("-o,--output", options->output, "Write it there")->type_name("FILE");
show->callback([options, &exit_status] {
    exit_status = with_results(*options, [&](const practice::ClassResults& results) {
        return write_out(shown(results, options->format), options->output);
    });
});

CLI::App* next = command->add_subcommand("next", "What somebody should practise next, and why");
add_database_option(*next, *options);
next->add_option("who", options->who, "As in their sessions")->required()->type_name("NAME");
next->callback([options, &exit_status] { exit_status = run_next(*options); });
}  // namespace halfsplit::cli

}  // namespace halfsplit::cli
