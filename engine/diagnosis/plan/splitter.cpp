#include "engine/diagnosis/plan/splitter.h"

#include <algorithm>
#include <cmath>

namespace halfsplit::diagnosis::plan {

Splitter::Splitter(const SearchSpace& space) : space_(space) {
    int most = 0;
    for (const SearchSpace::Column& column : space.columns) most = std::max(most, column.outcome_count);
    part_of_outcome_.assign(at(most), -1);
}

std::span<const Splitter::Part> Splitter::weigh(int column, const ClassSet& set) {
    const std::vector<int>& outcomes = space_.columns[at(column)].outcomes;
    parts_.clear();
    for (const int each : set) {
        const int outcome = outcomes[at(each)];
        int& part = part_of_outcome_[at(outcome)];
        if (part < 0) {
            part = static_cast<int>(parts_.size());
            parts_.push_back({outcome, 0, 0, 0});
        }
        ++parts_[at(part)].count;
        parts_[at(part)].prior += space_.priors[at(each)];
    }
    for (const Part& part : parts_) part_of_outcome_[at(part.outcome)] = -1;
    return parts_;
}

std::span<const Splitter::Part> Splitter::split(int column, const ClassSet& set) {
    weigh(column, set);
    int end = 0;
    for (Part& part : parts_) {
        part_of_outcome_[at(part.outcome)] = end;  // for now where the part's next class goes
        part.begin = end;
        end += part.count;
    }
    classes_.resize(at(end));
    const std::vector<int>& outcomes = space_.columns[at(column)].outcomes;
    for (const int each : set) classes_[at(part_of_outcome_[at(outcomes[at(each)])]++)] = each;
    for (const Part& part : parts_) part_of_outcome_[at(part.outcome)] = -1;
    return parts_;
}

std::vector<int> Splitter::division(int column, const ClassSet& set) {
    const std::vector<int>& outcomes = space_.columns[at(column)].outcomes;
    std::vector<int> numbers;
    numbers.reserve(set.size());
    int next = 0;
    for (const int each : set) {
        int& number = part_of_outcome_[at(outcomes[at(each)])];
        if (number < 0) number = next++;
        numbers.push_back(number);
    }
    for (const int each : set) part_of_outcome_[at(outcomes[at(each)])] = -1;
    return numbers;
}

std::span<const int> Splitter::classes_of(const Part& part) const {
    return std::span(classes_).subspan(at(part.begin), at(part.count));
}

ClassSet Splitter::set_of(const Part& part) const {
    const auto classes = classes_of(part);
    return {classes.begin(), classes.end()};
}

double weighted_entropy_bits(std::span<const Splitter::Part> parts) {
    double whole = 0;
    for (const Splitter::Part& part : parts) whole += part.prior;
    double sum = 0;
    for (const Splitter::Part& part : parts)
        if (part.prior > 0) sum -= part.prior * std::log2(part.prior / whole);
    return std::max(sum, 0.0);
}

}  // namespace halfsplit::diagnosis::plan
