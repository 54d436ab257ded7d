#include "engine/diagnosis/plan/plan.h"

#include <algorithm>
#include <stdexcept>

#include "engine/diagnosis/plan/bounds.h"
#include "engine/diagnosis/plan/one_step.h"
#include "engine/diagnosis/plan/optimal.h"
#include "engine/diagnosis/plan/rollout.h"
#include "engine/diagnosis/plan/search_state.h"

namespace halfsplit::diagnosis::plan {
namespace {

class Planner {
  public:
    Planner(const FaultTable& table, const TellPlan& tell)
        : table_(table), space_(search_space(table)), tell_(tell) {}

    Plan by(Method method, int search_budget) {
        plan_.method = method;
        const SetBounds bounds = bounds_of(space_);
        plan_.lower_bound = std::max(bounds.huffman, bounds.entropy);
        take(one_step_tree(space_, ends_of(Method::one_step)));
        if (method != Method::one_step && !is_proved()) take(rollout_tree(space_, ends_of(Method::rollout)));
        if (method == Method::optimal && !is_proved()) search(search_budget);
        plan_.proved = is_proved();
        // Where they meet, rounding must not leave the bound above.
        plan_.lower_bound = std::min(plan_.lower_bound, plan_.expected_cost);
        return std::move(plan_);
    }

  private:
    bool is_proved() const { return reaches(plan_.lower_bound, plan_.expected_cost); }

    void take(DecisionTree tree) {
        plan_.tree = std::move(tree);
        plan_.expected_cost = expected_cost(table_, plan_.tree);
    }

    void search(int budget) {
        const TellSearch tell = [&](int expanded, double lower_bound, double cost) {
            if (tell_) tell_({Method::optimal, expanded, budget, lower_bound, cost});
        };
        OptimalSearch found = optimal_tree(space_, plan_.tree, plan_.expected_cost, budget, tell);
        take(std::move(found.tree));
        plan_.lower_bound = std::max(plan_.lower_bound, found.lower_bound);
        plan_.expanded = found.expanded;
    }

    TellEnds ends_of(Method method) {
        return [this, method](int ends) {
            if (tell_)
                tell_({method, ends, static_cast<int>(space_.faults.size()), plan_.lower_bound,
                       plan_.expected_cost});
        };
    }

    const FaultTable& table_;
    SearchSpace space_;
    const TellPlan& tell_;
    Plan plan_;
};

}  // namespace

std::string_view name_of(Method method) {
    switch (method) {
        case Method::optimal:
            return "optimal";
        case Method::rollout:
            return "rollout";
        case Method::one_step:
            return "one-step";
    }
    throw std::logic_error("an unknown method");
}

const std::vector<Method>& methods() {
    static const std::vector<Method> all{Method::optimal, Method::rollout, Method::one_step};
    return all;
}

Plan make_plan(const FaultTable& table, Method method, int search_budget, const TellPlan& tell) {
    if (table.faults.empty()) throw std::invalid_argument("a plan needs a table with faults");
    return Planner(table, tell).by(method, search_budget);
}

Plan make_plan(const FaultTable& table, Method method, const TellPlan& tell) {
    return make_plan(table, method, search_budget_for(table), tell);
}

int search_budget_for(const FaultTable& table) {
    constexpr std::size_t kMost = 200'000;
    constexpr std::size_t kCellsInAll = 250'000'000;
    return static_cast<int>(std::min(kMost, kCellsInAll / std::max<std::size_t>(table.cells.size(), 1)));
}

Method method_for(const FaultTable& table) {
    // What they take on two cores of a 2.6 GHz server: the search's budget a minute at the first size,
    // rollout a minute at the second.
    constexpr std::size_t kCellsForSearch = 10'000;
    constexpr std::size_t kCellsForRollout = 100'000;
    if (table.cells.size() <= kCellsForSearch) return Method::optimal;
    return table.cells.size() <= kCellsForRollout ? Method::rollout : Method::one_step;
}

}  // namespace halfsplit::diagnosis::plan
