#include "engine/diagnosis/suspects/rank.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "engine/diagnosis/suspects/pairs.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// Pairs worked out after one more reading: each takes milliseconds for every state.
constexpr int kPairsAtOnce = 24;
constexpr double kHardlyCounts = 1e-4;
constexpr double kOthersCount = 2e-3;

/// Where no more than so many hypotheses share what is likely, somebody is about to repair one of them: then
/// a few pairs that look the same are worth it too.
constexpr int kFew = 12;
constexpr double kLikely = 0.98;
constexpr double kLeastOfRival = 0.003;

void check(const Hypotheses& hypotheses, const Evidence& evidence) {
    const Dictionary& dictionary = hypotheses.dictionary();
    for (const Reading& reading : evidence.readings)
        if (reading.state < 0 || at(reading.state) >= dictionary.states.size() || reading.finding < 0 ||
            at(reading.finding) >= dictionary.findings.size() || !std::isfinite(reading.value))
            throw std::invalid_argument("a reading of something the dictionary does not hold");
    for (const int fault : evidence.cleared)
        if (fault < 0 || at(fault) >= dictionary.faults.size())
            throw std::invalid_argument("a cleared fault the dictionary does not hold");
    if (!leaves_anything(hypotheses, evidence)) throw std::invalid_argument("everything has been cleared");
}

/// Probabilities from logs that may be far below what a number can hold.
std::vector<double> normalised(const std::vector<double>& log) {
    const double largest = *std::ranges::max_element(log);
    std::vector<double> probability(log.size());
    double sum = 0;
    for (std::size_t each = 0; each < log.size(); ++each) {
        probability[each] = std::exp(log[each] - largest);
        sum += probability[each];
    }
    for (double& each : probability) each /= sum;
    return probability;
}

/// Probability that `count` readings hold at least `contradictions` of nonsense.
double chance_of_nonsense(int count, int contradictions, double share) {
    double fewer = 0;
    double term = std::pow(1 - share, count);
    for (int hits = 0; hits < contradictions; ++hits) {
        fewer += term;
        term *= share / (1 - share) * (count - hits) / (hits + 1);
    }
    return std::max(1 - fewer, 0.0);
}

class Ranker {
  public:
    Ranker(Hypotheses& hypotheses, const Evidence& evidence)
        : hypotheses_(hypotheses), evidence_(evidence), readings_(distinct_readings(evidence.readings)) {}

    Ranking run() {
        hypotheses_.predict_pairs(states_of(readings_));
        for (const Reading& reading : readings_) weights_.push_back(weigh(hypotheses_, reading));
        weigh_all();
        ranking_.single_explains = single_explains();
        if (hypotheses_.predicts_pairs() && (!ranking_.single_explains || are_few_left())) {
            const double log_others = add_pairs();
            for (std::size_t i = 0; i < readings_.size(); ++i)
                weigh_pairs_again(hypotheses_, readings_[i], weights_[i]);
            weigh_all();
            leave_room_for(log_others);
        }
        set_pairs_aside();
        return std::move(ranking_);
    }

  private:
    void weigh_all() {
        std::vector<double> log = log_priors(hypotheses_, evidence_);
        contradictions_.assign(log.size(), 0);
        for (const Weights& weights : weights_) {
            for (std::size_t each = 0; each < log.size(); ++each) {
                log[each] += weights.log[each];
                contradictions_[each] += weights.contradicts[each];
            }
        }
        ranking_.probability = normalised(log);
        ranking_.order.resize(log.size());
        std::iota(ranking_.order.begin(), ranking_.order.end(), 0);
        std::ranges::stable_sort(ranking_.order, std::ranges::greater(),
                                 [this](int each) { return ranking_.probability[at(each)]; });
    }

    bool single_explains() const {
        const auto best =
            std::ranges::find_if(ranking_.order, [this](int each) { return !hypotheses_.is_pair(each); });
        const Assumptions& assumptions = hypotheses_.assumptions();
        return chance_of_nonsense(static_cast<int>(readings_.size()), contradictions_[at(*best)],
                                  assumptions.nonsense_share) > assumptions.surprise;
    }

    bool are_few_left() const {
        double sum = 0;
        for (int i = 0; i < std::min(kFew, static_cast<int>(ranking_.order.size())); ++i)
            sum += ranking_.probability[at(ranking_.order[at(i)])];
        return sum >= kLikely;
    }

    /// Log of how probable all other pairs are, against the best single fault.
    double add_pairs() {
        PairsInView view = ranking_.single_explains
                               ? rival_pairs(hypotheses_, evidence_, weights_, kPairsAtOnce, kLeastOfRival)
                               : candidate_pairs(hypotheses_, evidence_, weights_, kPairsAtOnce);
        for (const FaultPair& pair : view.foremost) hypotheses_.add_pair(pair);
        hypotheses_.predict_pairs(states_of(readings_));
        ranking_.promising = std::move(view.foremost);
        return view.log_others;
    }

    void leave_room_for(double log_others) {
        const auto best_single = std::ranges::find_if(
            ranking_.order, [this](int each) { return each != 0 && !hypotheses_.is_pair(each); });
        const double log_odds = log_others + std::log(ranking_.probability[at(*best_single)]);
        ranking_.other_pairs = 1 / (1 + std::exp(-log_odds));
        for (double& each : ranking_.probability) each /= 1 + std::exp(log_odds);
    }

    /// What hardly counts is not worked out in further states, unless it has to stand for many others.
    void set_pairs_aside() {
        const double least = ranking_.other_pairs < kOthersCount ? kHardlyCounts : 0;
        int kept = 0;
        for (const int each : ranking_.order)
            if (hypotheses_.is_pair(each) &&
                (ranking_.probability[at(each)] < least || ++kept > kPairsAtOnce))
                hypotheses_.set_aside(each);
    }

    Hypotheses& hypotheses_;
    const Evidence& evidence_;
    std::vector<Reading> readings_;
    std::vector<Weights> weights_;     ///< per reading
    std::vector<int> contradictions_;  ///< per hypothesis
    Ranking ranking_;
};

}  // namespace

bool leaves_anything(const Hypotheses& hypotheses, const Evidence& evidence) {
    return std::ranges::any_of(log_priors(hypotheses, evidence),
                               [](double log) { return std::isfinite(log); });
}

Ranking rank(Hypotheses& hypotheses, const Evidence& evidence) {
    check(hypotheses, evidence);
    return Ranker(hypotheses, evidence).run();
}

}  // namespace halfsplit::diagnosis
