#include "engine/diagnosis/suspects/pairs.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>

#include "engine/diagnosis/suspects/weighing.h"
#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// Faults that pairs are made of: of thousands most explain nothing. Of rivals, which are looked for more
/// often, fewer.
constexpr std::size_t kMostPartners = 160;
constexpr std::size_t kMostPartnersOfRivals = 100;
/// However many readings there are.
constexpr std::size_t kFewestForReading = 2;

/// As if the rough rule had told pairs right that are a twentieth as probable as the best single fault.
constexpr double kLogAsIfKnown = -3;

/// Less than any logarithm of a likelihood.
constexpr double kSaysNothing = -1e300;

bool are_of_one_thing(const network::Fault& a, const network::Fault& b) {
    if (a.subject == network::FaultSubject::wire || b.subject == network::FaultSubject::wire)
        return a.subject == b.subject && a.wire == b.wire;
    return a.part == b.part && a.pin == b.pin && a.element == b.element && a.part >= 0;
}

class PairSearch {
  public:
    PairSearch(const Hypotheses& hypotheses, const Evidence& evidence, const std::vector<Weights>& weights,
               std::size_t partners)
        : hypotheses_(hypotheses), readings_(distinct_readings(evidence.readings)), weights_(weights) {
        for (const Reading& reading : readings_) weighings_.emplace_back(hypotheses, reading);
        choose_partners(log_priors(hypotheses, evidence), partners);
        for (const int row : partners_) {
            log_prior_.push_back(std::log(hypotheses.prior(row)));
            for (std::size_t i = 0; i < readings_.size(); ++i)
                says_.push_back({value(row, i), weights_[i].log[at(row)]});
        }
        for (std::size_t i = 0; i < readings_.size(); ++i) sound_.push_back(value(0, i));
    }

    /// As far as their score is not below `least`, and without those that have this row in them (-1: all).
    PairsInView in_view(int most, double least, int without) const {
        std::vector<Scored> scored = scored_pairs(without);
        const auto kept = std::min(scored.size(), at(most));
        std::ranges::partial_sort(scored, scored.begin() + static_cast<std::ptrdiff_t>(kept),
                                  [](const Scored& a, const Scored& b) {
                                      return a.score != b.score ? a.score > b.score : a.pair < b.pair;
                                  });
        PairsInView view;
        for (std::size_t i = 0; i < kept && scored[i].score >= least; ++i)
            view.foremost.push_back(scored[i].pair);
        view.log_others = log_of_others(scored, view.foremost.size());
        return view;
    }

    int best_single() const { return best_single_; }

  private:
    /// The likeliest as a whole, and for each reading those that explain it best.
    void choose_partners(const std::vector<double>& log_prior, std::size_t most) {
        const int rows = hypotheses_.dictionary().rows();
        std::vector<int> all;
        for (int row = 1; row < rows; ++row)
            if (std::isfinite(log_prior[at(row)])) all.push_back(row);
        std::vector<double> whole = log_prior;
        for (const Weights& of_reading : weights_)
            for (std::size_t row = 0; row < whole.size(); ++row) whole[row] += of_reading.log[row];
        if (all.empty()) return;
        std::set<int> chosen;
        best_single_ = *std::ranges::max_element(all, {}, [&whole](int row) { return whole[at(row)]; });
        score_of_best_ = whole[at(best_single_)];
        const std::size_t share = std::max(most / (readings_.size() + 1), kFewestForReading);
        take_best(all, whole, share, chosen);
        for (const Weights& of_reading : weights_) {
            std::vector<double> by_this(whole.size());
            // Among those that explain it alike, the ones that fit the rest.
            for (std::size_t row = 0; row < by_this.size(); ++row)
                by_this[row] = 10 * of_reading.log[row] + whole[row];
            take_best(all, by_this, share, chosen);
        }
        partners_.assign(chosen.begin(), chosen.end());
    }

    static void take_best(std::vector<int> rows, const std::vector<double>& score, std::size_t count,
                          std::set<int>& chosen) {
        const auto kept = std::min(count, rows.size());
        std::ranges::partial_sort(rows, rows.begin() + static_cast<std::ptrdiff_t>(kept), [&](int a, int b) {
            return score[at(a)] != score[at(b)] ? score[at(a)] > score[at(b)] : a < b;
        });
        chosen.insert(rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(kept));
    }

    /// What one fault says of a reading.
    struct Says {
        double value = 0;
        double log = 0;  ///< how likely the reading is then
    };

    double value(int row, std::size_t reading) const {
        return hypotheses_.dictionary().value(readings_[reading].state, row, readings_[reading].finding);
    }

    /// Logs of a pair's probability against that of the best single fault.
    struct Scored {
        double score = 0;
        double rough = 0;  ///< by the rough rule; the score too, of what is not known
        bool is_known = false;
        FaultPair pair;
    };

    std::vector<Scored> scored_pairs(int without) const {
        const Assumptions& assumptions = hypotheses_.assumptions();
        const double of_pairs =
            std::log(2 * assumptions.pair_share / (1 - assumptions.sound_share)) - score_of_best_;
        const auto& faults = hypotheses_.dictionary().faults;
        std::vector<Scored> scored;
        for (std::size_t first = 0; first < partners_.size(); ++first)
            for (std::size_t second = first + 1; second < partners_.size(); ++second) {
                const int a = partners_[first];
                const int b = partners_[second];
                if (a == without || b == without) continue;
                if (are_of_one_thing(faults[at(a - 1)].fault, faults[at(b - 1)].fault)) continue;
                const double prior = log_prior_[first] + log_prior_[second] + of_pairs;
                const double rough = prior + roughly(first, second);
                const FaultPair pair = std::minmax(a - 1, b - 1);
                const std::optional<double> known = as_settled(pair);
                scored.push_back({known ? prior + *known : rough, rough, known.has_value(), pair});
            }
        return scored;
    }

    /// Nothing where the pair was not settled anew in all states that readings are from.
    std::optional<double> as_settled(const FaultPair& pair) const {
        const int hypothesis = hypotheses_.find_pair(pair);
        if (hypothesis < 0) return std::nullopt;
        double sum = 0;
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const int state = readings_[i].state;
            const int finding = readings_[i].finding;
            const float value = hypotheses_.values(hypothesis, state)[at(finding)];
            if (hypotheses_.told_of(hypothesis, state) != Told::exactly || std::isnan(value))
                return std::nullopt;
            const Expecting expecting = hypotheses_.expecting(state, finding);
            sum += weighings_[i](expecting(value, hypotheses_.weighed_as(state))).sum();
        }
        return sum;
    }

    /// Of those behind the first ones. The rough rule promises more than is true, and of the others as much
    /// more as it did of those that are known by now.
    static double log_of_others(const std::vector<Scored>& scored, std::size_t first) {
        double top = 0;
        for (const Scored& each : scored) top = std::max({top, each.score, each.rough});
        double promised = std::exp(kLogAsIfKnown - top);
        double kept = promised;
        double others = 0;
        for (std::size_t i = 0; i < scored.size(); ++i) {
            const double rough = std::exp(scored[i].rough - top);
            if (scored[i].is_known) {
                promised += rough;
                kept += std::exp(scored[i].score - top);
            } else if (i >= first) {
                others += rough;
            }
        }
        // Where none is known, what they are taken for may be too little beside the top to be a number.
        const double true_share = promised > 0 ? std::min(kept / promised, 1.0) : 1;
        return top + std::log(others * true_share);
    }

    /// Log of how likely the readings are with two partners.
    double roughly(std::size_t a, std::size_t b) const {
        const Says* of_a = says_.data() + a * readings_.size();
        const Says* of_b = says_.data() + b * readings_.size();
        double sum = 0;
        for (std::size_t i = 0; i < readings_.size(); ++i)
            sum += std::max({of_a[i].log, of_b[i].log, log_of_both(i, of_a[i].value, of_b[i].value)});
        return sum;
    }

    /// With the changes added up; of a sign, nothing. Where only one of them changes anything, which is
    /// nearly always, that one has told it already.
    double log_of_both(std::size_t number, double with_a, double with_b) const {
        const double sound = sound_[number];
        if (with_a == sound || with_b == sound) return kSaysNothing;
        const Reading& reading = readings_[number];
        const Finding::Kind kind = hypotheses_.dictionary().findings[at(reading.finding)].kind;
        const double both = with_a + with_b - sound;
        if (kind == Finding::Kind::sign || !std::isfinite(both)) return kSaysNothing;
        const Expectation expected = hypotheses_.expecting(reading.state, reading.finding)(
            static_cast<float>(both), hypotheses_.weighed_as(reading.state));
        return weighings_[number](expected).sum();
    }

    const Hypotheses& hypotheses_;
    std::vector<Reading> readings_;
    const std::vector<Weights>& weights_;  ///< per reading
    std::vector<Weighing> weighings_;      ///< per reading
    std::vector<int> partners_;            ///< rows
    std::vector<double> log_prior_;        ///< per partner
    std::vector<Says> says_;               ///< per partner and reading
    std::vector<double> sound_;            ///< per reading: the value in the sound vehicle
    int best_single_ = -1;
    double score_of_best_ = 0;
};

}  // namespace

PairsInView candidate_pairs(const Hypotheses& hypotheses, const Evidence& evidence,
                            const std::vector<Weights>& weights, int most) {
    return PairSearch(hypotheses, evidence, weights, kMostPartners)
        .in_view(most, -std::numeric_limits<double>::infinity(), -1);
}

PairsInView rival_pairs(const Hypotheses& hypotheses, const Evidence& evidence,
                        const std::vector<Weights>& weights, int most, double least_share) {
    const PairSearch search(hypotheses, evidence, weights, kMostPartnersOfRivals);
    return search.in_view(most, std::log(least_share), search.best_single());
}

}  // namespace halfsplit::diagnosis
