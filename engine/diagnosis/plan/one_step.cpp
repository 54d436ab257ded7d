#include "engine/diagnosis/plan/one_step.h"

#include <optional>
#include <utility>

#include "engine/diagnosis/plan/tree_growth.h"

namespace halfsplit::diagnosis::plan {
namespace {

struct Offer {
    int column = 0;
    double gain_bits = 0;
    double cost = 0;
};

/// Gains that are equal in truth differ by rounding; which of them wins must not hang on that.
constexpr double kEqual = 1e-12;

bool is_more(double a, double b) {
    return a > b * (1 + kEqual);
}

bool is_better(const Offer& a, const Offer& b) {
    const double a_per_cost = a.gain_bits * b.cost;  // both times both costs: one may be 0
    const double b_per_cost = b.gain_bits * a.cost;
    if (is_more(a_per_cost, b_per_cost)) return true;
    if (is_more(b_per_cost, a_per_cost)) return false;
    if (is_more(a.gain_bits, b.gain_bits)) return true;
    if (is_more(b.gain_bits, a.gain_bits)) return false;
    return a.cost < b.cost;
}

}  // namespace

int OneStep::best(const ClassSet& set, std::vector<int>& columns) {
    std::optional<Offer> best;
    std::size_t kept = 0;
    for (const int column : columns) {
        const auto parts = splitter_.weigh(column, set);
        if (parts.size() < 2) continue;
        columns[kept++] = column;
        const Offer offer{column, weighted_entropy_bits(parts), space_.columns[at(column)].cost};
        if (!best || is_better(offer, *best)) best = offer;
    }
    columns.resize(kept);
    return best.value().column;
}

double OneStep::cost(const ClassSet& set, const std::vector<int>& columns) {
    if (set.size() < 2) return 0;
    if (set.size() == 2) {
        // Whatever tells these two apart tells all there is, so the rule takes the cheapest.
        const int column = space_.cheapest_between(set[0], set[1]);
        return space_.columns[at(column)].cost * space_.prior_of(set);
    }
    if (const auto known = known_costs_.find(set); known != known_costs_.end()) return known->second;
    const double cost = computed_cost(set, columns);
    constexpr std::size_t kMostClassesKept =
        20'000'000;  // 80 MB, and as much again for the table around them
    if (classes_kept_ + set.size() <= kMostClassesKept) {
        classes_kept_ += set.size();
        known_costs_.emplace(set, cost);
    }
    return cost;
}

double OneStep::computed_cost(const ClassSet& set, std::vector<int> columns) {
    const int column = best(set, columns);
    double sum = space_.columns[at(column)].cost * space_.prior_of(set);
    std::vector<ClassSet> parts;
    for (const Splitter::Part& part : splitter_.split(column, set))
        if (part.count > 1) parts.push_back(splitter_.set_of(part));
    for (const ClassSet& part : parts) sum += cost(part, columns);
    return sum;
}

DecisionTree one_step_tree(const SearchSpace& space, const TellEnds& tell) {
    OneStep rule(space);
    return grow_tree(
        space, [&rule](const ClassSet& set, std::vector<int>& columns) { return rule.best(set, columns); },
        tell);
}

}  // namespace halfsplit::diagnosis::plan
