#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/plan/search_space.h"

namespace halfsplit::diagnosis::plan {

/// Divides sets of classes by what a test shows. It keeps its memory from one division to the next: the
/// searches do little else.
class Splitter {
  public:
    struct Part {
        int outcome = 0;
        int count = 0;
        double prior = 0;
        int begin = 0;  ///< after split(): where its classes begin
    };

    explicit Splitter(const SearchSpace& space);

    /// How many and how likely the classes behind each outcome are; in order of appearance.
    std::span<const Part> weigh(int column, const ClassSet& set);

    /// Also says which they are: see classes_of().
    std::span<const Part> split(int column, const ClassSet& set);

    /// Of a part the last split() gave, rising. Valid until the next.
    std::span<const int> classes_of(const Part& part) const;

    /// A copy of the same.
    ClassSet set_of(const Part& part) const;

    /// The number of the part of each class of `set`, in order of appearance: equal for two tests that divide
    /// the set alike.
    std::vector<int> division(int column, const ClassSet& set);

  private:
    const SearchSpace& space_;
    std::vector<Part> parts_;
    std::vector<int> part_of_outcome_;  ///< -1 between calls
    std::vector<int> classes_;
};

/// Entropy in bits of which part it is, times the prior of all parts together. 0 exactly where only one is
/// likely.
double weighted_entropy_bits(std::span<const Splitter::Part> parts);

}  // namespace halfsplit::diagnosis::plan
