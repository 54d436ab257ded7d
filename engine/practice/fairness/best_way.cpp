#include "engine/practice/fairness/best_way.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace halfsplit::practice {

namespace {

/// Beyond this nobody would go on.
constexpr int kMostSteps = 80;

class HiddenFaults {
  public:
    explicit HiddenFaults(const Expertise& expertise) : expertise_(expertise), left_(expertise.hidden) {}

    std::optional<double> read(const diagnosis::Test& test) {
        auto found = rows_.find(test.state);
        if (found == rows_.end())
            found = rows_.emplace(test.state, findings_with(expertise_, left_, test.state)).first;
        const auto value = static_cast<double>(found->second[static_cast<std::size_t>(test.finding)]);
        if (std::isnan(value)) return std::nullopt;
        return value;
    }

    bool is_broken(int fault) const { return std::ranges::find(left_, fault) != left_.end(); }

    bool mend(int fault) {
        std::erase(left_, fault);
        rows_.clear();
        return left_.empty();
    }

  private:
    const Expertise& expertise_;
    std::vector<int> left_;
    std::map<int, std::vector<float>> rows_;  ///< by state
};

/// Where nothing is wrong, that is what has to be said in the end.
bool says_nothing_is_wrong(const diagnosis::Diagnosis& diagnosis) {
    return !diagnosis.steps.empty() &&
           diagnosis.steps.back().choice.kind == diagnosis::Choice::Kind::repair &&
           diagnosis.steps.back().choice.group.front() == 0;
}

}  // namespace

BestWay best_way(const Expertise& expertise) {
    HiddenFaults hidden(expertise);
    const diagnosis::PatientVehicle vehicle{[&](const diagnosis::Test& test) { return hidden.read(test); },
                                            [&](int fault) { return hidden.is_broken(fault); },
                                            [&](int fault) { return hidden.mend(fault); }};
    const auto hypotheses = std::make_shared<diagnosis::Hypotheses>(expertise.consultation->new_hypotheses());
    BestWay way{diagnosis::follow(*hypotheses, expertise.consultation->workshop(), expertise.permitted,
                                  vehicle, expertise.complaint, kMostSteps),
                false, hypotheses};
    const bool is_right =
        expertise.hidden.empty() ? says_nothing_is_wrong(way.diagnosis) : way.diagnosis.is_sound;
    way.finds_it = is_right && way.diagnosis.needless_repairs == 0;
    return way;
}

}  // namespace halfsplit::practice
