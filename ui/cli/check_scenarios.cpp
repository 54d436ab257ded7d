#include "ui/cli/check_scenarios.h"

#include <iostream>
#include <list>

#include "engine/practice/fairness/fairness.h"
#include "ui/cli/circuit_file.h"
#include "ui/cli/dictionary_options.h"
#include "ui/files/known_circuits.h"
#include "ui/files/scenario_file.h"
#include "ui/view/fairness_text.h"
#include "ui/view/table.h"

namespace halfsplit::cli {

namespace {

struct Checked {
    files::ScenarioOnDisk scenario;
    practice::Fairness fairness;
};

tl::expected<Checked, Diagnostics> check_one(const std::string& file, const ScenarioChecks& checks,
                                             files::KnownCircuits& circuits) {
    auto scenario = files::read_scenario_on_disk(file);
    if (!scenario) return tl::unexpected(scenario.error());
    const auto expertise = circuits.expertise_on(scenario->read);
    if (!expertise) return tl::unexpected(expertise.error());
    practice::Fairness fairness = practice::fairness_of(scenario->read.scenario, *expertise);
    const practice::Scenario& job = scenario->read.scenario;
    if (fairness.problems.empty())
        std::cout << file << ": fair; level " << job.level << ", best strategy "
                  << view::fixed(fairness.way.minutes(), 1) << " min and " << fairness.way.diagnosis.tests
                  << " tests, " << fairness.suspects_at_first << " suspects at first\n";
    if (checks.shows_way) std::cout << view::best_way_text(*expertise, fairness.way);
    std::cout << std::flush;
    return Checked{std::move(*scenario), std::move(fairness)};
}

}  // namespace

bool check_scenarios(const std::vector<std::string>& files, const ScenarioChecks& checks) {
    files::KnownCircuits circuits(!checks.no_cache, tell_predictions());
    std::list<Checked> all;
    std::vector<view::CheckedScenario> fair;
    bool is_all_fair = true;
    for (const std::string& file : files) {
        auto checked = check_one(file, checks, circuits);
        const Diagnostics& problems = checked ? checked->fairness.problems : checked.error();
        print(problems);
        is_all_fair = is_all_fair && problems.empty();
        if (!checked) continue;
        all.push_back(std::move(*checked));
        if (all.back().fairness.problems.empty())
            fair.push_back({file, &all.back().scenario.read.scenario, &all.back().fairness});
    }
    if (fair.size() > 1) std::cout << "\n" << view::aligned_text(view::fairness_table(fair));
    return is_all_fair;
}

}  // namespace halfsplit::cli
