#include "engine/diagnosis/suspects/weights.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "engine/diagnosis/suspects/weighing.h"

namespace halfsplit::diagnosis {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();

/// Of hypotheses that say nothing: how likely the others, each by its prior, find this. So the reading
/// neither raises nor lowers them. Where none says anything, all are alike.
double log_average(const Hypotheses& hypotheses, const std::vector<double>& log,
                   const std::vector<int>& silent) {
    double prior_sum = 0;
    double sum = 0;
    std::size_t next = 0;
    for (int each = 0; each < static_cast<int>(log.size()); ++each) {
        if (next < silent.size() && silent[next] == each) {
            ++next;
            continue;
        }
        const double prior = hypotheses.prior(each);
        prior_sum += prior;
        sum += prior * std::exp(log[at(each)]);
    }
    return sum > 0 ? std::log(sum / prior_sum) : 0;
}

void weigh_from(int first, const Hypotheses& hypotheses, const Reading& reading, Weights& weights) {
    const Weighing weighing(hypotheses, reading);
    const int count = hypotheses.count();
    weights.log.resize(at(first));
    weights.log.resize(at(count), 0);
    weights.contradicts.resize(at(first));
    weights.contradicts.resize(at(count), 0);
    std::erase_if(weights.silent, [first](int each) { return each >= first; });
    const Expecting expecting = hypotheses.expecting(reading.state, reading.finding);
    const Told told = hypotheses.weighed_as(reading.state);
    // Neighbours often lead to the same, most to what the sound vehicle shows.
    float known = std::numeric_limits<float>::quiet_NaN();
    double log = 0;
    bool contradicts = false;
    for (int each = first; each < count; ++each) {
        if (hypotheses.is_set_aside(each)) continue;
        const float value = hypotheses.values(each, reading.state)[at(reading.finding)];
        if (std::isnan(value)) {
            weights.silent.push_back(each);
            continue;
        }
        if (value != known) {
            const Likelihood likelihood = weighing(expecting(value, told));
            log = likelihood.sum();
            contradicts = likelihood.contradicts();
            known = value;
        }
        weights.log[at(each)] = log;
        weights.contradicts[at(each)] = contradicts ? 1 : 0;
    }
    if (weights.silent.empty()) return;
    const double average = log_average(hypotheses, weights.log, weights.silent);
    for (const int each : weights.silent) weights.log[at(each)] = average;
}

}  // namespace

Weights weigh(const Hypotheses& hypotheses, const Reading& reading) {
    Weights weights;
    weigh_from(0, hypotheses, reading, weights);
    return weights;
}

void weigh_pairs_again(const Hypotheses& hypotheses, const Reading& reading, Weights& weights) {
    weigh_from(hypotheses.dictionary().rows(), hypotheses, reading, weights);
}

std::vector<double> log_priors(const Hypotheses& hypotheses, const Evidence& evidence) {
    const std::set<int> cleared(evidence.cleared.begin(), evidence.cleared.end());
    std::vector<double> log(at(hypotheses.count()));
    for (int each = 0; each < hypotheses.count(); ++each) {
        const std::vector<int> faults = hypotheses.faults_of(each);
        const bool excluded =
            (evidence.complaint && !hypotheses.is_noticed(each)) ||
            std::ranges::any_of(faults, [&cleared](int fault) { return cleared.contains(fault); });
        log[at(each)] = excluded ? kNever : std::log(hypotheses.prior(each));
    }
    return log;
}

std::vector<int> states_of(const std::vector<Reading>& readings) {
    std::set<int> states;
    for (const Reading& reading : readings) states.insert(reading.state);
    return {states.begin(), states.end()};
}

}  // namespace halfsplit::diagnosis
