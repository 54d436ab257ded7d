#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "engine/diagnosis/plan/plan.h"
#include "engine/diagnosis/plan/read_fault_table.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/circuit_options.h"
#include "ui/cli/command.h"
#include "ui/cli/progress.h"
#include "ui/view/plan_text.h"

namespace halfsplit::cli {

namespace plan = diagnosis::plan;

namespace {

struct PlanOptions {
    std::string file;
    std::string method;
    std::string format;
};

std::vector<std::string> method_names() {
    std::vector<std::string> names;
    for (const plan::Method method : plan::methods()) names.emplace_back(name_of(method));
    return names;
}

plan::Method method_of(const PlanOptions& options, const plan::FaultTable& table) {
    for (const plan::Method method : plan::methods())
        if (options.method == name_of(method)) return method;
    return method_for(table);
}

tl::expected<plan::FaultTable, Diagnostics> read_table(const std::string& path) {
    return read_text(path).and_then(
        [&](const std::string& text) { return plan::read_fault_table(text, path); });
}

int run_plan(const PlanOptions& options) {
    const auto table = read_table(options.file);
    if (!table) {
        print(table.error());
        return kAnswerIsNo;
    }
    Progress progress;
    const plan::Plan made =
        make_plan(*table, method_of(options, *table), [&progress](const plan::PlanProgress& now) {
            progress.tell([&now](std::ostream& out) { out << view::progress_text(now); });
        });
    if (options.format == "json")
        std::cout << view::plan_json(*table, made) << "\n";
    else
        std::cout << view::plan_text(*table, made);
    return kDone;
}

}  // namespace

void add_plan_command(CLI::App& program, int& exit_status) {
    CLI::App* command = program.add_subcommand(
        "plan", "The cheapest order of tests for a table of faults and what each test shows with them");
    const auto options = std::make_shared<PlanOptions>();
    command
        ->add_option("table", options->file,
                     "CSV file: a header fault,prior,TEST,... then if costs differ a row cost,,... "
                     "then a row a fault with each test's outcome")
        ->required()
        ->type_name("FILE");
    command
        ->add_option("--method", options->method,
                     "How to look for it; where nobody says, the best method that is done in reasonable time")
        ->check(CLI::IsMember(method_names()));
    add_format_option(*command, options->format, {"text", "json"});
    command->callback([options, &exit_status] { exit_status = run_plan(*options); });
}

}  // namespace halfsplit::cli
