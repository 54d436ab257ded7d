#include "engine/diagnosis/plan/optimal.h"

#include <algorithm>
#include <limits>

#include "engine/diagnosis/plan/search_state.h"
#include "engine/diagnosis/plan/tree_growth.h"

namespace halfsplit::diagnosis::plan {
namespace {

using Option = SearchState::Option;

/// A set is worked on until it is this much worse than the next best one: changing over for every small step
/// would walk the same ways again and again.
constexpr double kStay = 1.01;

class Search {
  public:
    Search(const SearchSpace& space, int budget, const TellSearch& tell)
        : space_(space), states_(space), budget_(budget), tell_(tell) {}

    SearchState& begin(double known_cost) {
        root_ = &states_.of(space_.all_classes());
        root_->upper = std::min(root_->upper, known_cost);
        return *root_;
    }

    /// Raises the state's lower bound above `limit`, or solves it, or runs out of budget.
    void improve(SearchState& state, double limit);

    /// The best tree known for all classes, where no other was known before that is better.
    DecisionTree tree() const;
    int expanded() const { return expanded_; }

  private:
    bool spent() const { return expanded_ >= budget_; }
    void expand(SearchState& state);
    void improve_option(const SearchState& state, Option& option, double limit);
    double test_cost(const SearchState& state, const Option& option) const {
        return state.prior * space_.columns[at(option.column)].cost;
    }
    void settle(SearchState& state, const Option& option);

    const SearchSpace& space_;
    SearchStates states_;
    SearchState* root_ = nullptr;
    int budget_ = 0;
    int expanded_ = 0;
    const TellSearch& tell_;
};

void Search::expand(SearchState& state) {
    if (spent()) return;
    ++expanded_;
    constexpr int kTellEvery = 256;
    if (expanded_ % kTellEvery == 0) tell_(expanded_, root_->lower, root_->upper);
    states_.expand(state);
}

void Search::improve(SearchState& state, double limit) {
    if (!state.expanded) expand(state);
    while (!spent() && !state.solved() && state.lower <= limit) {
        const auto best = std::ranges::min_element(state.options, {}, &Option::lower);
        double next_best = std::numeric_limits<double>::infinity();
        for (auto option = state.options.begin(); option != state.options.end(); ++option)
            if (option != best) next_best = std::min(next_best, option->lower);
        improve_option(state, *best, std::min(limit, next_best * kStay));
        settle(state, *best);
    }
}

/// Raises the option's bound above `limit`, or solves all that it leaves.
void Search::improve_option(const SearchState& state, Option& option, double limit) {
    if (!option.remainders) states_.follow(state, option);
    const auto bound = [&] {
        double sum = test_cost(state, option);
        for (const SearchState* remainder : *option.remainders) sum += remainder->lower;
        return sum;
    };
    option.lower = std::max(option.lower, bound());
    for (SearchState* remainder : *option.remainders) {
        if (option.lower > limit || spent()) break;
        improve(*remainder, remainder->lower + (limit - bound()));
        option.lower = std::max(option.lower, bound());
    }
}

/// Carries what is new about one of the state's options over to the state.
void Search::settle(SearchState& state, const Option& option) {
    double upper = test_cost(state, option);
    for (const SearchState* remainder : *option.remainders) upper += remainder->upper;
    if (upper < state.upper) {
        state.upper = upper;
        state.best_column = option.column;
    }
    std::erase_if(state.options, [&](const Option& each) { return reaches(each.lower, state.upper); });
    double lower = state.upper;
    for (const Option& each : state.options) lower = std::min(lower, each.lower);
    state.lower = std::max(state.lower, lower);
    state.close_if_solved();
    if (state.solved()) std::vector<Option>().swap(state.options);
}

DecisionTree Search::tree() const {
    OneStep rule(space_);
    return grow_tree(
        space_,
        [&](const ClassSet& set, std::vector<int>& columns) {
            const SearchState* state = states_.find(set);
            return state != nullptr && state->best_column >= 0 ? state->best_column : rule.best(set, columns);
        },
        [](int) {});
}

}  // namespace

OptimalSearch optimal_tree(const SearchSpace& space, const DecisionTree& known, double known_cost, int budget,
                           const TellSearch& tell) {
    if (space.faults.size() < 2) return {known, 0, true, 0};
    Search search(space, budget, tell);
    SearchState& root = search.begin(known_cost);
    search.improve(root, std::numeric_limits<double>::infinity());
    const bool is_new = root.best_column >= 0;
    return {is_new ? search.tree() : known, root.lower, root.solved(), search.expanded()};
}

}  // namespace halfsplit::diagnosis::plan
