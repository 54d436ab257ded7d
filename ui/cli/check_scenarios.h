#pragma once

#include <string>
#include <vector>

namespace halfsplit::cli {

struct ScenarioChecks {
    bool shows_way = false;
    bool no_cache = false;
};

/// Reads scenarios, proves that they are fair and prints what was found, with a table where there are
/// several. False where one of them is not.
bool check_scenarios(const std::vector<std::string>& files, const ScenarioChecks& checks);

}  // namespace halfsplit::cli
