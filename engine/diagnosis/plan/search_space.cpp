#include "engine/diagnosis/plan/search_space.h"

#include <algorithm>
#include <boost/container_hash/hash.hpp>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace halfsplit::diagnosis::plan {
namespace {

bool is_amount(double number) {
    return number >= 0 && std::isfinite(number);
}

void check(const FaultTable& table) {
    const bool amounts = std::ranges::all_of(table.faults, is_amount, &FaultTable::Fault::prior) &&
                         std::ranges::all_of(table.tests, is_amount, &FaultTable::Test::cost);
    if (!amounts) throw std::invalid_argument("a fault table holds a prior or cost that is no amount");
    if (table.cells.size() != table.faults.size() * table.tests.size())
        throw std::invalid_argument("a fault table's cells do not fit its faults and tests");
}

/// Outcomes renamed in order of appearance: equal for two tests that divide the classes alike.
std::vector<int> division(const std::vector<int>& outcomes, int outcome_count) {
    std::vector<int> names(at(outcome_count), -1);
    std::vector<int> renamed;
    renamed.reserve(outcomes.size());
    int next = 0;
    for (const int outcome : outcomes) {
        if (names[at(outcome)] < 0) names[at(outcome)] = next++;
        renamed.push_back(names[at(outcome)]);
    }
    return renamed;
}

SearchSpace::Column column_of(const FaultTable& table, const SearchSpace& space, int test) {
    SearchSpace::Column column;
    column.test = test;
    column.cost = table.tests[at(test)].cost;
    column.outcome_count = static_cast<int>(table.tests[at(test)].outcomes.size());
    column.outcomes.reserve(space.faults.size());
    for (const auto& faults : space.faults) column.outcomes.push_back(table.outcome(faults.front(), test));
    return column;
}

void add_classes(const FaultTable& table, SearchSpace& space) {
    std::vector<std::pair<double, std::vector<int>>> classes;
    for (auto& group : ambiguity_groups(table)) {
        const double prior = std::transform_reduce(group.begin(), group.end(), 0.0, std::plus<>(),
                                                   [&](int fault) { return table.faults[at(fault)].prior; });
        classes.emplace_back(prior, std::move(group));
    }
    std::ranges::sort(classes);
    for (auto& [prior, faults] : classes) {
        space.priors.push_back(prior);
        space.faults.push_back(std::move(faults));
    }
}

void add_columns(const FaultTable& table, SearchSpace& space) {
    std::vector<int> by_cost(table.tests.size());
    std::iota(by_cost.begin(), by_cost.end(), 0);
    std::ranges::stable_sort(by_cost, {}, [&](int test) { return table.tests[at(test)].cost; });
    std::map<std::vector<int>, int> known;
    for (const int test : by_cost) {
        SearchSpace::Column column = column_of(table, space, test);
        std::vector<int> divided = division(column.outcomes, column.outcome_count);
        const bool divides = std::ranges::any_of(divided, [](int name) { return name > 0; });
        if (divides && known.try_emplace(std::move(divided), test).second)
            space.columns.push_back(std::move(column));
    }
}

}  // namespace

std::size_t ClassSetHash::operator()(const ClassSet& set) const {
    return boost::hash_range(set.begin(), set.end());
}

ClassSet SearchSpace::all_classes() const {
    ClassSet all(faults.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
}

std::vector<int> SearchSpace::all_columns() const {
    std::vector<int> all(columns.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
}

double SearchSpace::prior_of(const ClassSet& set) const {
    return std::transform_reduce(set.begin(), set.end(), 0.0, std::plus<>(),
                                 [this](int each) { return priors[at(each)]; });
}

int SearchSpace::cheapest_between(int class_a, int class_b) const {
    const auto found = std::ranges::find_if(columns, [&](const Column& column) {
        return column.outcomes[at(class_a)] != column.outcomes[at(class_b)];
    });
    if (found == columns.end()) throw std::logic_error("no test tells two classes apart");
    return static_cast<int>(found - columns.begin());
}

SearchSpace search_space(const FaultTable& table) {
    check(table);
    SearchSpace space;
    add_classes(table, space);
    add_columns(table, space);
    return space;
}

DecisionTree::Node end_of(const SearchSpace& space, int class_index) {
    return {-1, {}, space.faults[at(class_index)]};
}

}  // namespace halfsplit::diagnosis::plan
