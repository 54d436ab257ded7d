#include "engine/diagnosis/plan/rollout.h"

#include <algorithm>
#include <limits>

#include "engine/diagnosis/plan/bounds.h"
#include "engine/diagnosis/plan/tree_growth.h"

namespace halfsplit::diagnosis::plan {
namespace {

/// Less by more than rounding.
constexpr double kCheaper = 1 - 1e-12;

std::size_t tests_to_try(const SearchSpace& space) {
    constexpr std::size_t kWork = 2'000'000;
    constexpr std::size_t kFewest = 8;
    constexpr std::size_t kMost = 64;
    const std::size_t cells = std::max<std::size_t>(space.faults.size() * space.columns.size(), 1);
    return std::clamp(kWork / cells, kFewest, kMost);
}

class Rollout {
  public:
    explicit Rollout(const SearchSpace& space)
        : space_(space), splitter_(space), rule_(space), tries_(tests_to_try(space)) {}

    int best(const ClassSet& set, std::vector<int>& columns) {
        int best = rule_.best(set, columns);
        if (set.size() == 2) return best;
        const std::vector<int> tried = most_telling(set, columns);
        TestsLeft left;
        for (const int column : columns)
            left.add(space_.columns[at(column)].cost,
                     std::min(space_.columns[at(column)].outcome_count, static_cast<int>(set.size())));
        double least = cost_with(best, set, columns, left, std::numeric_limits<double>::infinity());
        for (const int column : tried) {
            if (column == best) continue;
            const double cost = cost_with(column, set, columns, left, least);
            if (cost >= least * kCheaper) continue;
            least = cost;
            best = column;
        }
        return best;
    }

  private:
    /// Infinite as soon as it is sure not to be below `limit`.
    double cost_with(int column, const ClassSet& set, const std::vector<int>& columns, const TestsLeft& left,
                     double limit) {
        double sum = space_.columns[at(column)].cost * space_.prior_of(set);
        std::vector<ClassSet> parts;
        for (const Splitter::Part& part : splitter_.split(column, set))
            if (part.count > 1) parts.push_back(splitter_.set_of(part));
        std::vector<double> bounds(parts.size());
        for (std::size_t part = 0; part < parts.size(); ++part) {
            bounds[part] = huffman_bound(space_, parts[part], left);
            sum += bounds[part];
        }
        for (std::size_t part = 0; part < parts.size(); ++part) {
            if (sum >= limit * kCheaper) return std::numeric_limits<double>::infinity();
            sum += rule_.cost(parts[part], columns) - bounds[part];
        }
        return sum;
    }

    std::vector<int> most_telling(const ClassSet& set, const std::vector<int>& columns) {
        std::vector<int> chosen = columns;
        if (chosen.size() <= tries_) return chosen;
        std::vector<double> bits_a_cost(space_.columns.size());
        for (const int column : columns) {
            const double cost = space_.columns[at(column)].cost;
            bits_a_cost[at(column)] = cost > 0 ? weighted_entropy_bits(splitter_.weigh(column, set)) / cost
                                               : std::numeric_limits<double>::infinity();
        }
        std::ranges::stable_sort(chosen, std::ranges::greater(),
                                 [&](int column) { return bits_a_cost[at(column)]; });
        chosen.resize(tries_);
        return chosen;
    }

    const SearchSpace& space_;
    Splitter splitter_;
    OneStep rule_;
    std::size_t tries_;
};

}  // namespace

DecisionTree rollout_tree(const SearchSpace& space, const TellEnds& tell) {
    Rollout rollout(space);
    return grow_tree(
        space,
        [&rollout](const ClassSet& set, std::vector<int>& columns) { return rollout.best(set, columns); },
        tell);
}

}  // namespace halfsplit::diagnosis::plan
