#include "engine/diagnosis/next_test/grouping.h"

#include <algorithm>
#include <map>
#include <set>

#include "engine/diagnosis/plan/repair_order.h"

namespace halfsplit::diagnosis {
namespace {

/// What one hypothesis needs: both faults of a pair are mended.
struct Work {
    double repair_min = 0;
    int place = -1;
};

Work work_for(const Hypotheses& hypotheses, int hypothesis, const Workshop& workshop) {
    Work work;
    for (const int fault : hypotheses.faults_of(hypothesis)) {
        work.repair_min += workshop.repair_min[at(fault)];
        if (work.place < 0) work.place = workshop.fault_place[at(fault)];
    }
    return work;
}

/// The outcome of each first member, by its place in `firsts`.
std::vector<int> outcome_numbers(const std::vector<Outcome>& outcomes, std::size_t count) {
    std::vector<int> numbers(count, 0);
    for (int outcome = 0; outcome < static_cast<int>(outcomes.size()); ++outcome)
        for (const int member : outcomes[at(outcome)].members) numbers[at(member)] = outcome;
    return numbers;
}

/// Which firsts are still together after some tests.
class Division {
  public:
    explicit Division(std::size_t count) : part_(count, 0) {}

    /// Whether the test divides any part further; if so, it is done.
    bool divide(const std::vector<int>& outcome) {
        std::map<std::pair<int, int>, int> parts;
        std::vector<int> divided(part_.size());
        for (std::size_t i = 0; i < part_.size(); ++i)
            divided[i] =
                parts.try_emplace({part_[i], outcome[i]}, static_cast<int>(parts.size())).first->second;
        if (static_cast<int>(parts.size()) == count_) return false;
        count_ = static_cast<int>(parts.size());
        part_ = std::move(divided);
        return true;
    }

    bool is_done() const { return count_ == static_cast<int>(part_.size()); }

  private:
    std::vector<int> part_;
    int count_ = 1;
};

}  // namespace

Outlook::Group repair_of_group(const Hypotheses& hypotheses, const std::vector<int>& group,
                               const std::vector<double>& probability, const Workshop& workshop,
                               const Bench& bench) {
    Outlook::Group repair;
    for (const int member : group) repair.probability += probability[at(member)];
    const Work first = work_for(hypotheses, group.front(), workshop);
    repair.place = first.place;
    if (group.size() == 1 || repair.probability <= 0) {
        repair.repair_min = first.repair_min;
        return repair;
    }
    std::vector<plan::Cause> causes;
    for (const int member : group) {
        const Work work = work_for(hypotheses, member, workshop);
        plan::Cause cause{probability[at(member)] / repair.probability, workshop.effort.look_min,
                          work.repair_min};
        // The first one's place is paid with the group.
        if (work.place >= 0 && work.place != first.place && bench.open[at(work.place)] == 0)
            cause.observation_cost += workshop.access_min[at(work.place)];
        causes.push_back(cause);
    }
    repair.repair_min = plan::best_repair_order(causes).expected_cost;
    return repair;
}

std::vector<Test> dividing_tests(const Hypotheses& hypotheses, const std::vector<int>& firsts,
                                 const std::vector<Test>& tests, std::size_t most) {
    const std::vector<double> even(firsts.size(), 1.0);
    const auto divides = [&](Division& division, const Test& test) {
        return division.divide(outcome_numbers(outcomes_of(hypotheses, firsts, even, test), firsts.size()));
    };
    Division division(firsts.size());
    std::vector<Test> chosen;
    std::size_t next = 0;
    for (; next < tests.size() && chosen.size() < most / 2; ++next) {
        divides(division, tests[next]);
        chosen.push_back(tests[next]);
    }
    for (; next < tests.size() && chosen.size() < most && !division.is_done(); ++next)
        if (divides(division, tests[next])) chosen.push_back(tests[next]);
    return chosen;
}

Outlook outlook_for(const Hypotheses& hypotheses, const std::vector<std::vector<int>>& groups,
                    const std::vector<double>& probability, const std::vector<Test>& tests,
                    const Workshop& workshop, const Bench& bench) {
    Outlook outlook;
    outlook.access_min = workshop.access_min;
    outlook.state_min = workshop.effort.state_min;
    outlook.needless_min = workshop.effort.needless_min;
    std::vector<int> firsts;
    std::vector<double> weights;
    for (const std::vector<int>& group : groups) {
        outlook.groups.push_back(repair_of_group(hypotheses, group, probability, workshop, bench));
        firsts.push_back(group.front());
        weights.push_back(outlook.groups.back().probability);
    }
    for (const Test& test : tests) {
        const Finding::Kind kind = hypotheses.dictionary().findings[at(test.finding)].kind;
        const auto outcomes = outcomes_of(hypotheses, firsts, weights, test);
        const Bench there{std::vector<char>(workshop.access_min.size(), 1), test.state};
        outlook.tests.push_back({test, test_minutes(workshop, there, kind, test),
                                 workshop.test_place[at(test.finding)], test.state,
                                 static_cast<int>(outcomes.size())});
        for (const int number : outcome_numbers(outcomes, firsts.size()))
            outlook.cells.push_back(static_cast<std::uint8_t>(number));
    }
    return outlook;
}

}  // namespace halfsplit::diagnosis
