#include "engine/diagnosis/plan/fault_table.h"

#include <algorithm>
#include <numeric>
#include <unordered_map>
#include <utility>

namespace halfsplit::diagnosis::plan {

bool normalise(FaultTable& table) {
    double largest = 0;
    for (const FaultTable::Fault& fault : table.faults) largest = std::max(largest, fault.prior);
    if (largest <= 0) return false;
    double sum = 0;  // of shares of the largest: priors near the end of what a number holds would overflow
    for (const FaultTable::Fault& fault : table.faults) sum += fault.prior / largest;
    for (FaultTable::Fault& fault : table.faults) fault.prior = fault.prior / largest / sum;
    return true;
}

std::vector<std::vector<int>> ambiguity_groups(const FaultTable& table, const std::vector<int>& tests) {
    // Each test splits the groups there are: a fault's group is named by the group it was in and what it
    // shows.
    std::vector<int> group_of(table.faults.size(), 0);
    int group_count = table.faults.empty() ? 0 : 1;
    for (const int test : tests) {
        const int outcome_count = static_cast<int>(table.tests[at(test)].outcomes.size());
        std::unordered_map<long long, int> renamed;
        for (int fault = 0; fault < static_cast<int>(group_of.size()); ++fault) {
            const long long name =
                static_cast<long long>(group_of[at(fault)]) * outcome_count + table.outcome(fault, test);
            group_of[at(fault)] = renamed.try_emplace(name, static_cast<int>(renamed.size())).first->second;
        }
        group_count = static_cast<int>(renamed.size());
    }
    std::vector<std::vector<int>> groups(at(group_count));
    for (int fault = 0; fault < static_cast<int>(group_of.size()); ++fault)
        groups[at(group_of[at(fault)])].push_back(fault);
    return groups;
}

std::vector<std::vector<int>> ambiguity_groups(const FaultTable& table) {
    std::vector<int> all(table.tests.size());
    std::iota(all.begin(), all.end(), 0);
    return ambiguity_groups(table, all);
}

}  // namespace halfsplit::diagnosis::plan
