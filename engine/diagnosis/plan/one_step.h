#pragma once

#include <cstddef>
#include <functional>
#include <unordered_map>
#include <vector>

#include "engine/diagnosis/plan/decision_tree.h"
#include "engine/diagnosis/plan/splitter.h"

namespace halfsplit::diagnosis::plan {

/// The one-step rule: always the test with the largest information gain (entropy of its outcome, as outcomes
/// are certain with a given fault) per cost; of equals the one that gains more, then the cheaper, then the
/// earlier.
class OneStep {
  public:
    explicit OneStep(const SearchSpace& space) : space_(space), splitter_(space) {}

    /// The column to test for a set of at least two classes. `columns` are those that may still tell
    /// something; those that do not are taken out.
    int best(const ClassSet& set, std::vector<int>& columns);

    /// Expected cost of going on by this rule, weighted by the set's prior. `columns` are all that tell
    /// something, or more. Remembered for each set, as far as memory allows: the searches ask for the same
    /// ones often.
    double cost(const ClassSet& set, const std::vector<int>& columns);

  private:
    double computed_cost(const ClassSet& set, std::vector<int> columns);

    const SearchSpace& space_;
    Splitter splitter_;
    std::unordered_map<ClassSet, double, ClassSetHash> known_costs_;
    std::size_t classes_kept_ = 0;
};

/// How many classes the tree has ends for so far.
using TellEnds = std::function<void(int)>;

/// The whole tree.
DecisionTree one_step_tree(const SearchSpace& space, const TellEnds& tell);

}  // namespace halfsplit::diagnosis::plan
