#pragma once

#include <set>
#include <vector>

#include "engine/model/chart/chart.h"

namespace halfsplit::simulation {

/// States to enter, in entry order: that of the file.
struct EntrySet {
    std::set<int> states;
    std::set<int> by_default;  ///< those among them whose initial states are entered with them
};

/// Adds what entering `targets` from inside `domain` enters: targets, the states between, initial states, and
/// every region of each <parallel> (computeEntrySet of SCXML appendix D).
void add_entries(const model::chart::Chart& chart, const std::vector<int>& targets, int domain,
                 EntrySet& set);

}  // namespace halfsplit::simulation
