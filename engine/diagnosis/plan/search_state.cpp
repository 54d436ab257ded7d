#include "engine/diagnosis/plan/search_state.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace halfsplit::diagnosis::plan {

SearchStates::SearchStates(const SearchSpace& space) : space_(space), splitter_(space), rule_(space) {}

SearchState& SearchStates::of(const ClassSet& set) {
    const auto [entry, is_new] = states_.try_emplace(set);
    SearchState& state = entry->second;
    if (!is_new) return state;
    state.set = &entry->first;
    state.prior = space_.prior_of(set);
    state.upper = std::numeric_limits<double>::infinity();
    if (set.size() == 2) {
        state.best_column = space_.cheapest_between(set[0], set[1]);
        state.lower = state.upper = state.prior * space_.columns[at(state.best_column)].cost;
        state.expanded = true;
    }
    return state;
}

const SearchState* SearchStates::find(const ClassSet& set) const {
    const auto entry = states_.find(set);
    return entry == states_.end() ? nullptr : &entry->second;
}

void SearchStates::expand(SearchState& state) {
    state.expanded = true;
    const SetBounds bounds = bounds_of(space_, splitter_, *state.set, state.prior);
    state.lower = std::max({state.lower, bounds.huffman, bounds.entropy});
    state.upper = std::min(state.upper, rule_.cost(*state.set, bounds.columns));
    state.close_if_solved();
    if (state.solved()) return;
    add_options(state, bounds);
    double least = state.upper;
    for (const SearchState::Option& option : state.options) least = std::min(least, option.lower);
    state.lower = std::max(state.lower, least);
    state.close_if_solved();
}

void SearchStates::add_options(SearchState& state, const SetBounds& bounds) {
    divisions_.clear();
    for (const int column : bounds.columns) {
        const bool is_new = divisions_.insert(splitter_.division(column, *state.set)).second;
        if (!is_new) continue;  // one that is as cheap or cheaper divides the set alike
        const double lower = least_with(column, state, bounds.left);
        if (!reaches(lower, state.upper)) state.options.push_back({column, lower, nullptr});
    }
}

double SearchStates::least_with(int column, const SearchState& state, const TestsLeft& left) {
    double sum = state.prior * space_.columns[at(column)].cost;
    for (const Splitter::Part& part : splitter_.split(column, *state.set)) {
        const auto classes = splitter_.classes_of(part);
        if (classes.size() == 2)
            sum += part.prior * space_.columns[at(space_.cheapest_between(classes[0], classes[1]))].cost;
        else
            sum += huffman_bound(space_, classes, left);
    }
    return sum;
}

void SearchStates::follow(const SearchState& state, SearchState::Option& option) {
    option.remainders = std::make_unique<std::vector<SearchState*>>();
    for (const Splitter::Part& part : splitter_.split(option.column, *state.set))
        if (part.count > 1) option.remainders->push_back(&of(splitter_.set_of(part)));
}

}  // namespace halfsplit::diagnosis::plan
