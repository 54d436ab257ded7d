#include "engine/diagnosis/suspects/pairs.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/diagnosis/suspects/weights.h"

namespace halfsplit::diagnosis {
namespace {

/// Faults that pairs are made of: of thousands most explain nothing.
constexpr std::size_t kMostPartners = 300;

bool are_of_one_thing(const network::Fault& a, const network::Fault& b) {
    if (a.subject == network::FaultSubject::wire || b.subject == network::FaultSubject::wire)
        return a.subject == b.subject && a.wire == b.wire;
    return a.part == b.part && a.pin == b.pin && a.element == b.element && a.part >= 0;
}

class PairSearch {
  public:
    PairSearch(const Hypotheses& hypotheses, const Evidence& evidence)
        : hypotheses_(hypotheses), readings_(distinct_readings(evidence.readings)) {
        for (const Reading& reading : readings_) log_.push_back(weigh(hypotheses, reading).log);
        choose_partners(log_priors(hypotheses, evidence));
    }

    std::vector<FaultPair> best(int most) const {
        struct Scored {
            double score;
            FaultPair pair;
        };
        std::vector<Scored> scored;
        for (std::size_t first = 0; first < partners_.size(); ++first)
            for (std::size_t second = first + 1; second < partners_.size(); ++second) {
                const int a = partners_[first];
                const int b = partners_[second];
                const auto& faults = hypotheses_.dictionary().faults;
                if (are_of_one_thing(faults[at(a - 1)].fault, faults[at(b - 1)].fault)) continue;
                scored.push_back({score(a, b), std::minmax(a - 1, b - 1)});
            }
        const auto kept = std::min(scored.size(), at(most));
        std::ranges::partial_sort(scored, scored.begin() + static_cast<std::ptrdiff_t>(kept),
                                  [](const Scored& a, const Scored& b) {
                                      return a.score != b.score ? a.score > b.score : a.pair < b.pair;
                                  });
        std::vector<FaultPair> pairs;
        for (std::size_t i = 0; i < kept; ++i) pairs.push_back(scored[i].pair);
        return pairs;
    }

  private:
    /// The likeliest as a whole, and for each reading those that explain it best.
    void choose_partners(const std::vector<double>& log_prior) {
        const int rows = hypotheses_.dictionary().rows();
        std::vector<int> all;
        for (int row = 1; row < rows; ++row)
            if (std::isfinite(log_prior[at(row)])) all.push_back(row);
        std::vector<double> whole = log_prior;
        for (const auto& log : log_)
            for (std::size_t row = 0; row < whole.size(); ++row) whole[row] += log[row];
        std::set<int> chosen;
        const std::size_t share = kMostPartners / (readings_.size() + 1);
        take_best(all, whole, share, chosen);
        for (const auto& log : log_) {
            std::vector<double> by_this(whole.size());
            // Among those that explain it alike, the ones that fit the rest.
            for (std::size_t row = 0; row < by_this.size(); ++row) by_this[row] = 10 * log[row] + whole[row];
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

    double score(int a, int b) const {
        double sum = std::log(hypotheses_.prior(a)) + std::log(hypotheses_.prior(b));
        for (std::size_t i = 0; i < readings_.size(); ++i)
            sum += std::max({log_[i][at(a)], log_[i][at(b)], log_of_both(readings_[i], a, b)});
        return sum;
    }

    /// With the changes added up; of a sign, nothing.
    double log_of_both(const Reading& reading, int a, int b) const {
        const Finding::Kind kind = hypotheses_.dictionary().findings[at(reading.finding)].kind;
        const auto value = [&](int row) {
            return hypotheses_.dictionary().value(reading.state, row, reading.finding);
        };
        const double both = value(a) + value(b) - value(0);
        if (kind == Finding::Kind::sign || !std::isfinite(both)) return -1e300;
        const Expectation expected =
            hypotheses_.expecting(reading.state, reading.finding)(static_cast<float>(both), Told::exactly);
        return likelihood_of(kind, expected, reading.value, hypotheses_.range(kind),
                             hypotheses_.assumptions())
            .sum();
    }

    const Hypotheses& hypotheses_;
    std::vector<Reading> readings_;
    std::vector<std::vector<double>> log_;  ///< per reading
    std::vector<int> partners_;             ///< rows
};

}  // namespace

std::vector<FaultPair> candidate_pairs(const Hypotheses& hypotheses, const Evidence& evidence, int most) {
    return PairSearch(hypotheses, evidence).best(most);
}

}  // namespace halfsplit::diagnosis
