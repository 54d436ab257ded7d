#pragma once

#include <string>
#include <vector>

#include "engine/practice/fairness/fairness.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// A scenario with what was proved of it.
struct CheckedScenario {
    std::string file;
    const practice::Scenario* scenario = nullptr;
    const practice::Fairness* fairness = nullptr;
};

/// One row a scenario, by level and then by minutes.
Table fairness_table(const std::vector<CheckedScenario>& checked);

/// The best way, step by step: what is tested, what it shows, what it would mean to show something else.
std::string best_way_text(const practice::Expertise& expertise, const practice::BestWay& way);

/// One step of it in a line: "12.0 min  ready: voltmeter at K2.87 (...) against body: 12.60 V".
std::string step_text(const practice::Expertise& expertise, const practice::BestWay& way,
                      const diagnosis::Diagnosis::Step& step);

}  // namespace halfsplit::view
