#pragma once

#include <memory>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "engine/diagnosis/plan/bounds.h"
#include "engine/diagnosis/plan/one_step.h"

namespace halfsplit::diagnosis::plan {

/// Equal but for rounding: bounds are sums of as many terms as a tree has nodes.
inline bool reaches(double lower, double upper) {
    constexpr double kRounding = 1e-11;
    return lower >= upper * (1 - kRounding);
}

/// A set of classes within the search. Costs are weighted by the set's prior.
struct SearchState {
    struct Option {
        int column = 0;
        double lower = 0;  ///< the test and what is left behind it cost at least this
        /// Sets of two and more that it leaves; none until follow() makes them. Most options never get there.
        std::unique_ptr<std::vector<SearchState*>> remainders;
    };
    const ClassSet* set = nullptr;  ///< kept by SearchStates
    double prior = 0;
    double lower = 0;
    double upper = 0;
    int best_column = -1;  ///< where `upper` comes from; -1: going on by the one-step rule
    bool expanded = false;
    std::vector<Option> options;  ///< those that may still beat `upper`

    bool solved() const { return reaches(lower, upper); }

    /// To be called when a bound has changed: bounds that meet but for rounding are made equal, so that what
    /// is summed up from solved states meets too.
    void close_if_solved() {
        if (solved()) lower = upper;
    }
};

/// All sets the search has met. They stay where they are: SearchState::Option points at them.
class SearchStates {
  public:
    explicit SearchStates(const SearchSpace& space);

    /// The state of a set of at least two classes; of two, it is solved.
    SearchState& of(const ClassSet& set);
    const SearchState* find(const ClassSet& set) const;

    /// Looks at each test once: bounds, and the options that are worth a look.
    void expand(SearchState& state);

    /// Makes the states that an option leaves.
    void follow(const SearchState& state, SearchState::Option& option);

  private:
    void add_options(SearchState& state, const SetBounds& bounds);
    double least_with(int column, const SearchState& state, const TestsLeft& left);

    const SearchSpace& space_;
    Splitter splitter_;
    OneStep rule_;
    std::unordered_map<ClassSet, SearchState, ClassSetHash> states_;
    std::unordered_set<ClassSet, ClassSetHash> divisions_;  ///< of the set that is being expanded
};

}  // namespace halfsplit::diagnosis::plan
