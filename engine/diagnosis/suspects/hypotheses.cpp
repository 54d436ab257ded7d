#include "engine/diagnosis/suspects/hypotheses.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

namespace halfsplit::diagnosis {
namespace {

void check_shapes(const Dictionary& dictionary, const Spread& spread) {
    const std::size_t findings = dictionary.findings.size();
    const std::size_t states = dictionary.states.size();
    if (at(spread.findings) != findings || spread.sigma.size() != states * findings)
        throw std::invalid_argument("a spread of another dictionary");
    if (dictionary.values.size() != states * at(dictionary.rows()) * findings ||
        dictionary.told.size() != states * at(dictionary.rows()))
        throw std::invalid_argument("a dictionary whose sizes do not fit");
}

/// How wide the values of each kind of finding scatter over the whole dictionary; of nothing, 1.
std::array<double, 3> ranges_of(const Dictionary& dictionary) {
    const std::size_t width = dictionary.findings.size();
    std::vector<float> low(width, 0.0F);  // 0 V and 0 A are always among what nonsense shows
    std::vector<float> high(width, 0.0F);
    for (std::size_t start = 0; start < dictionary.values.size(); start += width)
        for (std::size_t finding = 0; finding < width; ++finding) {
            const float value = dictionary.values[start + finding];
            low[finding] = value < low[finding] ? value : low[finding];
            high[finding] = value > high[finding] ? value : high[finding];
        }
    std::array<float, 3> lowest{};
    std::array<float, 3> highest{};
    for (std::size_t finding = 0; finding < width; ++finding) {
        const auto kind = static_cast<std::size_t>(dictionary.findings[finding].kind);
        lowest[kind] = std::min(lowest[kind], low[finding]);
        highest[kind] = std::max(highest[kind], high[finding]);
    }
    std::array<double, 3> ranges{};
    for (std::size_t kind = 0; kind < ranges.size(); ++kind) {
        const double range = static_cast<double>(highest[kind]) - static_cast<double>(lowest[kind]);
        ranges[kind] = range > 0 && std::isfinite(range) ? range : 1;
    }
    return ranges;
}

}  // namespace

Hypotheses::Hypotheses(const Dictionary& dictionary, const Spread& spread, const Assumptions& assumptions,
                       Predict pairs, Predict anew)
    : dictionary_(dictionary),
      spread_(spread),
      assumptions_(assumptions),
      predict_pairs_(std::move(pairs)),
      anew_(std::move(anew)),
      settled_of_(dictionary.told.size(), -1) {
    check_shapes(dictionary, spread);
    double rate_sum = 0;
    for (const PossibleFault& fault : dictionary.faults) rate_sum += fault.rate;
    priors_.push_back(assumptions_.sound_share);
    for (const PossibleFault& fault : dictionary.faults)
        priors_.push_back((1 - assumptions_.sound_share) * fault.rate / rate_sum);
    ranges_ = ranges_of(dictionary);
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state)
        weighed_as_.push_back(dictionary.puts_into_what_stands(state) ? Told::as_it_stands : Told::exactly);
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state)
        for (int finding = 0; finding < static_cast<int>(dictionary.findings.size()); ++finding)
            least_apart_.push_back(expecting(state, finding).least_apart());
    unknown_ = {std::vector<float>(dictionary.findings.size(), std::numeric_limits<float>::quiet_NaN()),
                Told::not_at_all};
    for (int row = 0; row < dictionary.rows(); ++row) noticed_.push_back(differs_from_sound(row) ? 1 : 0);
}

std::vector<int> Hypotheses::faults_of(int hypothesis) const {
    if (hypothesis == 0) return {};
    if (!is_pair(hypothesis)) return {hypothesis - 1};
    const FaultPair& pair = pairs_[at(hypothesis - dictionary_.rows())].faults;
    return {pair.first, pair.second};
}

bool Hypotheses::differs_from_sound(int row) const {
    for (int state = 0; state < static_cast<int>(dictionary_.states.size()); ++state) {
        const auto sound = values(0, state);
        const auto here = values(row, state);
        const auto least = least_apart(state);
        for (int finding = 0; finding < static_cast<int>(here.size()); ++finding)
            if (std::abs(here[at(finding)] - sound[at(finding)]) > least[at(finding)] &&
                expecting(state, finding)
                    .tells_apart(sound[at(finding)], here[at(finding)], weighed_as(state)))
                return true;
    }
    return false;
}

double Hypotheses::prior(int hypothesis) const {
    if (!is_pair(hypothesis)) return priors_[at(hypothesis)];
    const auto& [faults, rows, is_aside] = pairs_[at(hypothesis - dictionary_.rows())];
    if (is_aside) return 0;
    // Of two draws either may have been the first.
    return priors_[at(faults.first + 1)] * priors_[at(faults.second + 1)] / (1 - assumptions_.sound_share) *
           assumptions_.pair_share * 2;
}

int Hypotheses::add_pair(FaultPair pair) {
    const auto [known, is_new] = known_pairs_.try_emplace(pair, count());
    if (is_new) pairs_.push_back({pair, {}});
    pair_of(known->second).is_aside = false;
    return known->second;
}

int Hypotheses::find_pair(FaultPair pair) const {
    const auto known = known_pairs_.find(pair);
    return known == known_pairs_.end() ? -1 : known->second;
}

void Hypotheses::set_aside(int pair) {
    pair_of(pair).is_aside = true;
}

void Hypotheses::predict_pairs(std::span<const int> states) {
    std::vector<FaultsInState> lacking;
    std::vector<Pair*> of;
    for (Pair& pair : pairs_) {
        if (pair.is_aside) continue;
        for (const int state : states) {
            if (pair.rows.contains(state)) continue;
            lacking.push_back({{pair.faults.first, pair.faults.second}, state});
            of.push_back(&pair);
        }
    }
    std::vector<PredictedRow> rows = predicted(predict_pairs_, lacking);
    for (std::size_t i = 0; i < rows.size(); ++i) of[i]->rows[lacking[i].state] = std::move(rows[i]);
}

std::vector<PredictedRow> Hypotheses::predicted(const Predict& predict,
                                                const std::vector<FaultsInState>& wanted) const {
    if (wanted.empty()) return {};
    std::vector<PredictedRow> rows = predict(wanted);
    if (rows.size() != wanted.size()) throw std::logic_error("other faults were predicted");
    for (const PredictedRow& row : rows)
        if (row.values.size() != dictionary_.findings.size())
            throw std::logic_error("faults were predicted with other findings");
    return rows;
}

std::vector<int> Hypotheses::unsettled_in(int hypothesis, std::span<const int> states) const {
    std::vector<int> unsettled;
    if (!anew_) return unsettled;
    for (const int state : states)
        if (told_of(hypothesis, state) == Told::as_it_stands) unsettled.push_back(state);
    return unsettled;
}

void Hypotheses::settle(std::span<const Row> rows) {
    std::vector<FaultsInState> wanted;
    for (const Row& row : rows) wanted.push_back({faults_of(row.hypothesis), row.state});
    std::vector<PredictedRow> found = predicted(anew_, wanted);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto [hypothesis, state] = rows[i];
        if (is_pair(hypothesis)) {
            pair_of(hypothesis).rows[state] = std::move(found[i]);
            continue;
        }
        settled_of(hypothesis, state) = static_cast<int>(settled_.size());
        settled_.push_back(std::move(found[i]));
    }
}

std::span<const float> Hypotheses::values(int hypothesis, int state) const {
    if (is_pair(hypothesis)) return row_of_pair(hypothesis, state).values;
    if (const int settled = settled_of(hypothesis, state); settled >= 0) return settled_[at(settled)].values;
    return {&dictionary_.values[dictionary_.row_start(state, hypothesis)], dictionary_.findings.size()};
}

Told Hypotheses::told_of(int hypothesis, int state) const {
    if (is_pair(hypothesis)) return row_of_pair(hypothesis, state).told;
    if (const int settled = settled_of(hypothesis, state); settled >= 0) return settled_[at(settled)].told;
    return dictionary_.told_of(state, hypothesis);
}

const PredictedRow& Hypotheses::row_of_pair(int hypothesis, int state) const {
    const Pair& pair = pairs_[at(hypothesis - dictionary_.rows())];
    const auto row = pair.rows.find(state);
    return row == pair.rows.end() ? unknown_ : row->second;
}

}  // namespace halfsplit::diagnosis
