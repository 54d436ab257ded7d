#include "engine/diagnosis/next_test/choose.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>
#include <span>

#include "engine/diagnosis/next_test/grouping.h"
#include "engine/diagnosis/next_test/lookahead.h"
#include "engine/diagnosis/next_test/screening.h"
#include "engine/diagnosis/suspects/groups.h"

namespace halfsplit::diagnosis {
namespace {

/// Hypotheses beyond this share of all probability are let go of until more is known.
constexpr double kLiveShare = 0.998;
/// How many are screened, how many the best tests are rated with, of how many groups are made, how many
/// groups are planned for.
constexpr std::size_t kMostScreened = 1500;
constexpr std::size_t kMostRated = 192;
constexpr std::size_t kMostGrouped = 400;
constexpr std::size_t kMostPlanned = 40;
/// Of all probability: where so much is with kMostGrouped, the others do not keep anybody from planning.
constexpr double kMostOfIt = 0.98;
/// What is less likely is not repaired as long as there is anything to test.
constexpr double kLeastToRepair = 0.15;
/// Tests that are looked at closely, and that plans are made of.
constexpr std::size_t kMostLookedAt = 128;
constexpr std::size_t kMostInPlan = 56;
/// Of tests that divide in the same way; they may be at different places and in different states.
constexpr int kMostAlike = 3;
constexpr double kNothing = 1e-9;  // bits

/// Pairs among the hypotheses stand for those that are not, each for as many: what tells a single fault from
/// them tells it from most others.
Ranking with_others(const Hypotheses& hypotheses, const Ranking& ranking) {
    Ranking all = ranking;
    std::vector<int> pairs;
    for (const int each : all.order)
        if (hypotheses.is_pair(each) && !hypotheses.is_set_aside(each)) pairs.push_back(each);
    if (pairs.empty() || all.other_pairs <= 0) return all;
    for (const int each : pairs)
        all.probability[at(each)] += all.other_pairs / static_cast<double>(pairs.size());
    std::ranges::stable_sort(all.order, std::ranges::greater(),
                             [&all](int each) { return all.probability[at(each)]; });
    return all;
}

class Chooser {
  public:
    Chooser(Hypotheses& hypotheses, const Ranking& ranking, const Evidence& evidence,
            const Workshop& workshop, const Bench& bench, const Permitted& permitted)
        : hypotheses_(hypotheses),
          told_(ranking),
          ranking_(with_others(hypotheses, ranking)),
          workshop_(workshop),
          bench_(bench),
          permitted_(permitted) {
        for (const Reading& reading : evidence.readings) taken_.insert({reading.state, reading.finding});
        find_live();
    }

    Choice run() {
        look_at_tests();
        if (live_.hypotheses.size() > kMostGrouped) {
            if (!few_hold_most()) return best_by_rate();
            live_.hypotheses.resize(kMostGrouped);
            live_.probability.resize(kMostGrouped);
        }
        groups_ = ambiguity_groups(hypotheses_, live_.hypotheses, permitted_);
        sort_groups();
        groups_.resize(std::min(groups_.size(), kMostPlanned));
        return planned();
    }

  private:
    struct Rated {
        Test test;
        double bits = 0;
        double minutes = 0;
        double rate() const { return bits / std::max(minutes, 1e-9); }
    };

    void find_live() {
        double sum = 0;
        bool has_pair = false;
        for (const int each : ranking_.order) {
            if (sum >= kLiveShare || ranking_.probability[at(each)] <= 0) break;
            sum += ranking_.probability[at(each)];
            live_.hypotheses.push_back(each);
            live_.probability.push_back(ranking_.probability[at(each)]);
            has_pair = has_pair || hypotheses_.is_pair(each);
        }
        if (has_pair) hypotheses_.predict_pairs(permitted_.states);
    }

    /// The rest are thousands of which each is a wonder: looking at all of them would take longer than the
    /// repair that is most likely right.
    bool few_hold_most() const {
        const auto first = std::span(live_.probability).first(kMostGrouped);
        return std::accumulate(first.begin(), first.end(), 0.0) >= kMostOfIt;
    }

    double minutes_of(const Test& test) const {
        return test_minutes(workshop_, bench_, hypotheses_.dictionary().findings[at(test.finding)].kind,
                            test);
    }

    /// All that may tell something, roughly rated; then the best of them exactly.
    void look_at_tests() {
        const std::vector<double> bits = rough_bits(hypotheses_, thinned(live_, kMostScreened), permitted_);
        std::size_t next = 0;
        for (const int state : permitted_.states)
            for (const int finding : permitted_.findings) {
                const double rough = bits[next++];
                if (rough > 0 && !taken_.contains({state, finding}))
                    rated_.push_back({{state, finding}, rough, minutes_of({state, finding})});
            }
        sort_rated();
        const Live drawn = thinned(live_, kMostRated);
        keep_different(drawn);
        for (Rated& each : rated_)
            each.bits = information_bits(hypotheses_, drawn.hypotheses, drawn.probability, each.test);
        std::erase_if(rated_, [](const Rated& each) { return each.bits < kNothing; });
        sort_rated();
    }

    void keep_different(const Live& drawn) {
        std::vector<Test> tests;
        tests.reserve(rated_.size());
        for (const Rated& each : rated_) tests.push_back(each.test);
        std::vector<Rated> kept;
        for (const std::size_t each : different_tests(hypotheses_, drawn, tests, kMostAlike, kMostLookedAt))
            kept.push_back(rated_[each]);
        rated_ = std::move(kept);
    }

    void sort_rated() {
        std::ranges::stable_sort(rated_, [](const Rated& a, const Rated& b) { return a.rate() > b.rate(); });
    }

    static double sum_of(const std::vector<int>& group, const Ranking& ranking) {
        double sum = 0;
        for (const int each : group) sum += ranking.probability[at(each)];
        return sum;
    }

    void sort_groups() {
        std::ranges::stable_sort(groups_, std::ranges::greater(),
                                 [this](const std::vector<int>& group) { return sum_of(group, ranking_); });
    }

    /// Where all that is left to look at tells next to nothing of thousands of suspects, finding the right
    /// one by it would take longer than a repair of the likeliest that may turn out to be in vain.
    bool is_worth_repairing() const {
        const int best = ranking_.best();
        const double probability = ranking_.probability[at(best)];
        if (best == 0 || probability < kLeastToRepair) return false;
        if (rated_.empty()) return true;
        double minutes_in_vain = workshop_.effort.needless_min;
        for (const int fault : hypotheses_.faults_of(best))
            minutes_in_vain += workshop_.repair_min[at(fault)];
        return (1 - probability) * minutes_in_vain < entropy_bits() / rated_.front().rate();
    }

    /// Of what is alive.
    double entropy_bits() const {
        double bits = 0;
        for (const double each : live_.probability) bits -= each * std::log2(each);
        return bits;
    }

    Choice best_by_rate() const {
        Choice choice;
        choice.group = {ranking_.best()};
        if (!rated_.empty()) tell_test(rated_.front().test, choice);
        if (is_worth_repairing())
            complete(choice.group);
        else if (!rated_.empty())
            choice.kind = Choice::Kind::test;
        choice.probability = sum_of(choice.group, told_);
        choice.minutes_to_go = std::numeric_limits<double>::quiet_NaN();
        choice.minutes_repairing_now = choice.minutes_to_go;
        return choice;
    }

    Choice planned() const {
        std::vector<Test> tests;
        for (const Rated& each : rated_) tests.push_back(each.test);
        std::vector<int> firsts;
        for (const std::vector<int>& group : groups_) firsts.push_back(group.front());
        const Outlook outlook =
            outlook_for(hypotheses_, groups_, ranking_.probability,
                        dividing_tests(hypotheses_, firsts, tests, kMostInPlan), workshop_, bench_);
        const Prospect prospect = Lookahead(outlook, bench_).best();
        Choice choice;
        choice.group = groups_[at(prospect.group)];
        choice.probability = sum_of(choice.group, told_);
        choice.minutes_to_go = prospect.minutes;
        choice.minutes_repairing_now = prospect.minutes_repairing;
        if (prospect.test >= 0) {
            choice.kind = Choice::Kind::test;
            tell_test(outlook.tests[at(prospect.test)].test, choice);
        } else {
            complete(choice.group);
            if (!rated_.empty()) tell_test(rated_.front().test, choice);
        }
        return choice;
    }

    /// Also with those that are too improbable to be alive, but told by nothing from what is.
    void complete(std::vector<int>& group) const {
        TellingApart differ(hypotheses_, permitted_);
        for (const int each : ranking_.order) {
            if (ranking_.probability[at(each)] <= 0) break;
            if (std::ranges::find(group, each) == group.end() && !differ(group.front(), each))
                group.push_back(each);
        }
    }

    void tell_test(const Test& test, Choice& choice) const {
        const int place = workshop_.test_place[at(test.finding)];
        choice.test = test;
        choice.minutes = minutes_of(test);
        choice.bits = information_bits(hypotheses_, live_.hypotheses, live_.probability, test);
        choice.place_is_open = place < 0 || bench_.open[at(place)] != 0;
        choice.state_stands = test.state == bench_.state;
        for (const Outcome& outcome : outcomes_of(hypotheses_, live_.hypotheses, live_.probability, test)) {
            Choice::Split split{outcome.low, outcome.high, outcome.probability, {}};
            std::vector<int> members = outcome.members;
            std::ranges::sort(members);  // live_ has the most probable first
            for (const int member : members) split.hypotheses.push_back(live_.hypotheses[at(member)]);
            choice.splits.push_back(std::move(split));
        }
    }

    Hypotheses& hypotheses_;
    const Ranking& told_;
    Ranking ranking_;  ///< the pairs stand for all others as well
    const Workshop& workshop_;
    const Bench& bench_;
    const Permitted& permitted_;
    std::set<std::pair<int, int>> taken_;
    Live live_;
    std::vector<Rated> rated_;  ///< the best first
    std::vector<std::vector<int>> groups_;
};

}  // namespace

Choice choose(Hypotheses& hypotheses, const Ranking& ranking, const Evidence& evidence,
              const Workshop& workshop, const Bench& bench, const Permitted& permitted) {
    return Chooser(hypotheses, ranking, evidence, workshop, bench, permitted).run();
}

}  // namespace halfsplit::diagnosis
