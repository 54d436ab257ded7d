#pragma once

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/diagnosis/plan/decision_tree.h"
#include "engine/diagnosis/plan/fault_table.h"

namespace halfsplit::diagnosis::plan {

enum class Method { optimal, rollout, one_step };

/// "optimal", "rollout", "one-step"
std::string_view name_of(Method method);

/// All of them, the best first.
const std::vector<Method>& methods();

/// In which order to test.
struct Plan {
    Method method = Method::optimal;
    DecisionTree tree;
    double expected_cost = 0;
    double lower_bound = 0;  ///< no tree costs less
    bool proved = false;     ///< `tree` is one of the cheapest
    int expanded = 0;        ///< sets of faults the search for the cheapest looked at
};

/// How many sets of faults the search for the cheapest tree looks at before it gives up: up to half a minute
/// and half a gigabyte. Fewer in a large table, where looking at one set takes longer.
int search_budget_for(const FaultTable& table);

/// How far it is: the method at work, what it has done out of how much, and the bounds known by then (0 where
/// none are).
struct PlanProgress {
    Method method = Method::optimal;
    int done = 0;  ///< of one-step and rollout: faults or groups found a place; of optimal: sets looked at
    int of = 0;
    double lower_bound = 0;
    double expected_cost = 0;
};
using TellPlan = std::function<void(const PlanProgress&)>;

/// Plans by this method. The optimal one begins with the rollout and falls back to the cheapest tree it has
/// where its budget ends before the proof. Throws std::invalid_argument for a table without faults, or whose
/// sizes do not fit.
Plan make_plan(const FaultTable& table, Method method, int search_budget, const TellPlan& tell = {});

/// With the budget for such a table.
Plan make_plan(const FaultTable& table, Method method, const TellPlan& tell = {});

/// The best method that is done with such a table in reasonable time.
Method method_for(const FaultTable& table);

}  // namespace halfsplit::diagnosis::plan
