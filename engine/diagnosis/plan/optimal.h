#pragma once

#include <functional>

#include "engine/diagnosis/plan/decision_tree.h"
#include "engine/diagnosis/plan/search_space.h"

namespace halfsplit::diagnosis::plan {

/// What the search for the cheapest tree found.
struct OptimalSearch {
    DecisionTree tree;       ///< the cheapest known
    double lower_bound = 0;  ///< no tree costs less
    bool proved = false;     ///< none costs less than `tree` (but for rounding)
    int expanded = 0;        ///< sets of classes that were looked at test by test
};

/// Hears from time to time: sets looked at so far, the lower bound, the expected cost of the cheapest tree
/// known.
using TellSearch = std::function<void(int, double, double)>;

/// The cheapest tree, by AND/OR search best first (AO*, as Pattipati & Alexandridis, IEEE Trans. SMC
/// 20(4):872-887, 1990; in depth-first order within a limit, so that a set's bound is raised as far as it
/// matters and no further). Sets of classes are remembered with a lower bound (bounds.h) and an upper one
/// (the one-step rule); a test that cannot beat the upper bound is dropped. Begins with `known`, the cheapest
/// tree known before; stops after looking at `budget` sets.
OptimalSearch optimal_tree(const SearchSpace& space, const DecisionTree& known, double known_cost, int budget,
                           const TellSearch& tell);

}  // namespace halfsplit::diagnosis::plan
