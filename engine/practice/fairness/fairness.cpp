#include "engine/practice/fairness/fairness.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/diagnosis/suspects/groups.h"
#include "engine/diagnosis/suspects/rank.h"

namespace halfsplit::practice {

using diagnosis::Finding;

namespace {

/// How far a reading on a job card may be off: somebody read it in haste.
constexpr double kReadingShare = 0.1;
/// Of V or A: what a meter leaves open about nothing.
constexpr double kReadingFloor = 0.01;
/// Of all probability; the rest is what nonsense leaves possible.
constexpr double kMostOfIt = 0.9;

bool is_as_said(const Finding& finding, double found, double said) {
    if (finding.kind == Finding::Kind::sign) return found == said;
    return std::abs(found - said) <= kReadingShare * std::abs(said) + kReadingFloor;
}

class Judge {
  public:
    Judge(const Scenario& scenario, const Expertise& expertise)
        : scenario_(scenario), expertise_(expertise), dictionary_(expertise.consultation->dictionary()) {}

    Fairness judge() {
        judge_symptoms();
        judge_complaint();
        judge_way();
        return std::move(fairness_);
    }

  private:
    void complain(const Location& where, std::string what) {
        fairness_.problems.push_back({where, std::move(what)});
    }

    void judge_symptoms() {
        for (std::size_t i = 0; i < scenario_.symptoms.size(); ++i) {
            const Symptom& symptom = scenario_.symptoms[i];
            const diagnosis::Reading& reading = expertise_.complaint.readings[i];
            const auto found = static_cast<double>(
                findings_with(expertise_, expertise_.hidden, reading.state)[at(reading.finding)]);
            const double sound = dictionary_.value(reading.state, 0, reading.finding);
            const std::string& state = dictionary_.states[at(reading.state)];
            const std::string what = "'" + symptom.finding.at + "' in state " + state;
            if (!is_as_said(symptom.finding, found, symptom.value))
                complain(symptom.where, "the hidden faults do not lead to this: " + what + " is " +
                                            said(symptom.finding, found) + ", not " +
                                            said(symptom.finding, symptom.value));
            if (!scenario_.faults.empty() && is_as_said(symptom.finding, sound, symptom.value))
                complain(symptom.where, "this is so in the sound vehicle too: " + what);
        }
    }

    /// As people say it: "silent", "0.62".
    std::string said(const Finding& finding, double value) const {
        if (finding.kind != Finding::Kind::sign) return number_text(value);
        const auto sources = diagnosis::sign_sources(expertise_.consultation->circuit());
        const diagnosis::SignSource* source = find_sign_source(sources, finding.at);
        const auto sign = static_cast<diagnosis::Sign>(static_cast<int>(value));
        return source == nullptr ? number_text(value) : std::string(sign_word(source->shows, sign));
    }

    void judge_complaint() {
        diagnosis::Hypotheses hypotheses = expertise_.consultation->new_hypotheses();
        const diagnosis::Ranking ranking = rank(hypotheses, expertise_.complaint);
        std::vector<int> likely;
        double sum = 0;
        for (const int hypothesis : ranking.order) {
            if (sum + ranking.other_pairs >= kMostOfIt) break;
            sum += ranking.probability[at(hypothesis)];
            if (!hypotheses.is_pair(hypothesis)) likely.push_back(hypothesis);
        }
        const auto groups = ambiguity_groups(hypotheses, likely, expertise_.permitted);
        fairness_.suspects_at_first = static_cast<int>(groups.size());
        for (const std::vector<int>& group : groups) {
            const bool is_it = std::ranges::any_of(group, [&](int hypothesis) {
                return std::ranges::find(expertise_.hidden, hypothesis - 1) != expertise_.hidden.end();
            });
            if (!is_it) continue;
            for (const int hypothesis : group)
                fairness_.belief_at_first += ranking.probability[at(hypothesis)];
        }
        if (scenario_.level == 1 || scenario_.faults.empty()) return;
        if (fairness_.suspects_at_first < kLeastSuspects)
            complain(scenario_.where, "the complaint alone leaves " +
                                          std::to_string(fairness_.suspects_at_first) + " suspects; " +
                                          std::to_string(kLeastSuspects) + " are expected above level 1");
        if (fairness_.belief_at_first > kMostBelief)
            complain(scenario_.where,
                     "the complaint alone singles the fault out; a vaguer symptom is expected "
                     "above level 1");
    }

    void judge_way() {
        fairness_.way = best_way(expertise_);
        if (!fairness_.way.finds_it)
            return complain(scenario_.where,
                            expertise_.hidden.empty()
                                ? "the best strategy repairs something, though nothing is wrong"
                                : "the best strategy does not find the hidden faults with what is "
                                  "allowed");
        const double minutes = fairness_.way.minutes();
        if (minutes > scenario_.budget_min)
            complain(scenario_.where, "the best strategy takes " + number_text(std::ceil(minutes)) +
                                          " min, more than the budget");
        const LevelMinutes level = minutes_of_level(scenario_.level);
        if (minutes < level.least || minutes > level.most)
            complain(scenario_.where, "the best strategy takes " + number_text(std::round(minutes)) +
                                          " min; level " + std::to_string(scenario_.level) + " is " +
                                          number_text(level.least) + " to " + number_text(level.most) +
                                          " min");
    }

    const Scenario& scenario_;
    const Expertise& expertise_;
    const diagnosis::Dictionary& dictionary_;
    Fairness fairness_;
};

}  // namespace

LevelMinutes minutes_of_level(int level) {
    switch (level) {
        case 1:
            return {0, 25};
        case 2:
            return {15, 40};
        case 3:
            return {25, 55};
        case 4:
            return {35, 80};
        default:
            return {50, 1000};
    }
}

Fairness fairness_of(const Scenario& scenario, const Expertise& expertise) {
    return Judge(scenario, expertise).judge();
}

}  // namespace halfsplit::practice
