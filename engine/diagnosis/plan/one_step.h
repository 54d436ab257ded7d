#pragma once

#include <functional>
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

    /// Expected cost of going on by this rule, weighted by the set's prior.
    double cost(const ClassSet& set, std::vector<int> columns);

  private:
    const SearchSpace& space_;
    Splitter splitter_;
};

/// How many classes the tree has ends for so far.
using TellEnds = std::function<void(int)>;

/// The whole tree.
DecisionTree one_step_tree(const SearchSpace& space, const TellEnds& tell);

/// Adds the tree for a set to `tree`; its first node's number.
int add_one_step_tree(const SearchSpace& space, const ClassSet& set, DecisionTree& tree,
                      const TellEnds& tell);

}  // namespace halfsplit::diagnosis::plan
