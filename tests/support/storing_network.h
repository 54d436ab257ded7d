#pragma once

#include <vector>

#include "engine/simulation/integrator.h"

namespace halfsplit::test {

/// A branch without a store, of a plain resistance, opened or closed at a time.
struct Toggle {
    double at_s = 0;
    int branch = 0;
    bool conducts = false;
};

/// A network in time with what befalls it.
struct StoringNetwork {
    int node_count = 0;
    std::vector<simulation::StoringBranch> branches;
    std::vector<double>
        stored_at_start;          ///< one per branch: x of engine/simulation/stage.h, 0 without a store
    std::vector<Toggle> toggles;  ///< in the order of their times

    /// Returns its number.
    int add(int from, int to, const model::Law& law, const model::Store& store = {}, double stored = 0) {
        branches.push_back({{from, to, law}, store});
        stored_at_start.push_back(stored);
        return static_cast<int>(branches.size()) - 1;
    }
};

}  // namespace halfsplit::test
