#include "engine/practice/verdict/hindsight.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "engine/base/index.h"
#include "engine/diagnosis/dictionary/share_out.h"
#include "engine/diagnosis/suspects/rank.h"
#include "engine/practice/verdict/foresight.h"
#include "engine/practice/verdict/likeness.h"

namespace halfsplit::practice {

namespace {

/// Suspects that the complaint leaves less likely than this share of the likeliest are out of it.
constexpr double kLeastShare = 1e-4;
constexpr std::size_t kMostSuspected = 400;
/// Of all probability.
constexpr double kMostOfIt = 0.9;
/// What was to be expected to tell less than this could rule nothing out.
constexpr double kNothingBits = 0.05;
/// Less probable suspects do not make a test worth while.
constexpr double kCounts = 0.01;
/// Logarithm of what is left of a suspect that would have shown quite something else.
constexpr double kOutOfTheQuestion = -30;
/// An alternative is worth telling where it tells so many times as much per minute.
constexpr double kClearlyMore = 1.5;

/// What is meant to find something out, and not to put something right.
bool is_question(Verb verb) {
    return verb == Verb::look || verb == Verb::measure || verb == Verb::record || verb == Verb::inspect;
}

/// One of the vehicles it might be.
struct Suspected {
    int hypothesis = 0;
    double log_weight = 0;
    bool is_foreseen = false;  ///< to be ruled out: it is not tried, and answers as the sound one until then
    std::optional<ServicedVehicle> vehicle;
    std::vector<Observed> answer;  ///< to the last action
    bool answers = true;           ///< the last action could be done on it
};

double entropy_bits(const std::vector<double>& probability) {
    double bits = 0;
    for (const double p : probability)
        if (p > 0) bits -= p * std::log2(p);
    return bits;
}

class LookBack {
  public:
    LookBack(const Session& session, const Expertise& expertise, int threads, const TellHindsight& tell)
        : session_(session),
          expertise_(expertise),
          threads_(threads),
          tell_(tell),
          foresight_(session, expertise),
          open_(session.circuit().places.size(), 0) {}

    Hindsight run() {
        suspect();
        have_all_arrive();
        Hindsight hindsight{static_cast<int>(left().size()), {}, hypotheses_};
        const int count = static_cast<int>(session_.entries().size());
        for (int i = 0; i < count; ++i) {
            hindsight.steps.push_back(step(i));
            if (tell_) tell_(i + 1, count);
        }
        return hindsight;
    }

  private:
    std::vector<network::Fault> faults_of(int hypothesis) const {
        std::vector<network::Fault> faults;
        for (const int fault : hypotheses_->faults_of(hypothesis))
            faults.push_back(expertise_.consultation->dictionary().faults[at(fault)].fault);
        return faults;
    }

    /// The sound vehicle first, then what the complaint leaves, then what is really wrong.
    void suspect() {
        hypotheses_ = std::make_shared<diagnosis::Hypotheses>(expertise_.consultation->new_hypotheses());
        const diagnosis::Ranking ranking = rank(*hypotheses_, expertise_.complaint);
        truth_ = 0;
        if (expertise_.hidden.size() == 1) truth_ = expertise_.hidden.front() + 1;
        if (expertise_.hidden.size() == 2)
            truth_ = hypotheses_->add_pair(std::minmax(expertise_.hidden[0], expertise_.hidden[1]));
        add(0, ranking.probability[0]);
        const double most = ranking.probability[at(ranking.best())];
        for (const int hypothesis : ranking.order) {
            const double probability = ranking.probability[at(hypothesis)];
            if (hypothesis == 0 || hypothesis == truth_) continue;
            if (suspected_.size() >= kMostSuspected || probability < kLeastShare * most) break;
            add(hypothesis, probability);
        }
        if (truth_ == 0) return;
        const bool is_ranked = at(truth_) < ranking.probability.size();
        add(truth_, std::max(is_ranked ? ranking.probability[at(truth_)] : 0, kLeastShare * most));
    }

    void add(int hypothesis, double probability) {
        const bool is_single = hypothesis != 0 && !hypotheses_->is_pair(hypothesis);
        const bool is_foreseen = is_single && hypothesis != truth_ &&
                                 foresight_.rules_out(hypotheses_->faults_of(hypothesis).front());
        const double log_weight = probability > 0 ? std::log(probability) : -kNever;
        suspected_.push_back({hypothesis, log_weight, is_foreseen, std::nullopt, {}, true});
    }

    /// The sound vehicle is the measure of changes even where it is out of the question.
    void have_all_arrive() {
        do_with_all([this](Suspected& suspected) {
            if (suspected.is_foreseen) return;
            auto vehicle = ServicedVehicle::arrive(session_.circuit(), faults_of(suspected.hypothesis),
                                                   session_.scenario().arrives_in);
            if (vehicle) suspected.vehicle.emplace(std::move(*vehicle));
        });
        std::erase_if(suspected_, [](const Suspected& each) {
            return !each.vehicle && !each.is_foreseen && each.hypothesis != 0;
        });
    }

    /// Those that are foreseen to be ruled out by this entry are now, those by a later one not yet.
    void take_foreseen(int index) {
        if (index > foresight_.entry()) return;
        const Suspected& sound = suspected_.front();
        for (Suspected& each : suspected_)
            if (each.is_foreseen) {
                each.answers = sound.answers;
                each.answer = sound.answer;
                if (index == foresight_.entry()) each.log_weight += kOutOfTheQuestion;
            }
    }

    std::vector<double> probabilities() const {
        double most = -kNever;
        for (const Suspected& each : suspected_) most = std::max(most, each.log_weight);
        std::vector<double> shares;
        double sum = 0;
        for (const Suspected& each : suspected_) shares.push_back(std::exp(each.log_weight - most));
        for (const double share : shares) sum += share;
        for (double& share : shares) share /= sum;
        return shares;
    }

    std::vector<int> left() const {
        const std::vector<double> shares = probabilities();
        std::vector<std::size_t> order(shares.size());
        std::iota(order.begin(), order.end(), 0U);
        std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return shares[a] > shares[b]; });
        std::vector<int> left;
        double sum = 0;
        for (const std::size_t each : order) {
            if (sum >= kMostOfIt) break;
            sum += shares[each];
            left.push_back(suspected_[each].hypothesis);
        }
        return left;
    }

    void do_with_all(const std::function<void(Suspected&)>& deed) {
        diagnosis::share_out(static_cast<int>(suspected_.size()), threads_,
                             [&](int number, int /*thread*/) { deed(suspected_[at(number)]); });
    }

    static void ask(Suspected& suspected, const Action& action) {
        if (!suspected.vehicle) return;
        const auto effect = suspected.vehicle->carry_out(action);
        suspected.answers = effect.has_value();
        suspected.answer = effect ? effect->observed : std::vector<Observed>{};
    }

    StepInHindsight step(int index) {
        const Entry& entry = session_.entries()[at(index)];
        StepInHindsight step;
        step.entry = index;
        step.was_in_order = is_in_order();
        const std::vector<double> before = probabilities();
        if (is_done_to_vehicle(entry.action.verb)) {
            do_with_all([&](Suspected& each) { ask(each, entry.action); });
            take_foreseen(index);
            if (is_question(entry.action.verb) && !step.was_in_order) {
                step.expected_bits = expected_bits(before);
                step.better = better_than(entry, before, step.expected_bits);
            }
            learn(entry, before, step);
            for (const int place : places_of(session_.circuit(), entry.action)) open_[at(place)] = 1;
            note_state(entry.action);
        }
        step.left = left();
        const std::vector<double> after = probabilities();
        for (std::size_t i = 0; i < suspected_.size(); ++i)
            if (suspected_[i].hypothesis == truth_) step.belief += after[i];
        forget_improbable(after);
        return step;
    }

    void learn(const Entry& entry, const std::vector<double>& before, StepInHindsight& step) {
        const std::vector<Observed>& sound = suspected_.front().answer;
        std::vector<double> likeness;
        for (const Suspected& each : suspected_)
            likeness.push_back(each.answers ? log_likeness(entry.observed, each.answer, sound)
                                            : std::log(kCounts));
        step.could_tell_nothing =
            is_question(entry.action.verb) && !step.was_in_order && step.expected_bits < kNothingBits;
        for (std::size_t i = 0; i < suspected_.size(); ++i) suspected_[i].log_weight += likeness[i];
        step.bits = entropy_bits(before) - entropy_bits(probabilities());
    }

    /// The vehicle with what is really wrong has been repaired; one with nothing wrong never had to be.
    bool is_in_order() const {
        if (expertise_.hidden.empty()) return false;
        const auto truth = std::ranges::find(suspected_, truth_, &Suspected::hypothesis);
        return truth != suspected_.end() && truth->vehicle && truth->vehicle->faults().empty() &&
               truth->vehicle->blown_fuses().empty();
    }

    /// Where the vehicle stands in one of the circuit's states as it was brought there, the dictionary knows
    /// what to expect.
    void note_state(const Action& action) {
        const auto& states = expertise_.consultation->dictionary().states;
        if (action.verb == Verb::state) {
            const auto found = std::ranges::find(states, action.arguments.front());
            state_ = found == states.end() ? -1 : static_cast<int>(found - states.begin());
        } else if (!is_question(action.verb)) {
            state_ = -1;
        }
    }

    /// Mutual information of the suspects with what they answer, each answer being taken as it would be.
    double expected_bits(const std::vector<double>& before) const {
        std::vector<std::size_t> likely;
        std::vector<double> shares;
        double sum = 0;
        for (std::size_t i = 0; i < suspected_.size(); ++i)
            if (before[i] >= kCounts / static_cast<double>(suspected_.size())) {
                likely.push_back(i);
                shares.push_back(before[i]);
                sum += before[i];
            }
        for (double& share : shares) share /= sum;
        const std::vector<Observed>& sound = suspected_.front().answer;
        double left = 0;
        for (std::size_t i = 0; i < likely.size(); ++i) {
            std::vector<double> after;
            double total = 0;
            for (std::size_t k = 0; k < likely.size(); ++k) {
                const double likeness =
                    log_likeness(suspected_[likely[i]].answer, suspected_[likely[k]].answer, sound);
                after.push_back(shares[k] * std::exp(likeness));
                total += after.back();
            }
            for (double& share : after) share /= total;
            left += shares[i] * entropy_bits(after);
        }
        return entropy_bits(shares) - left;
    }

    std::optional<Alternative> better_than(const Entry& entry, const std::vector<double>& before,
                                           double own_bits) {
        diagnosis::Ranking ranking;
        ranking.probability.assign(at(hypotheses_->count()), 0);
        for (std::size_t i = 0; i < suspected_.size(); ++i)
            ranking.probability[at(suspected_[i].hypothesis)] = before[i];
        for (int i = 0; i < hypotheses_->count(); ++i) ranking.order.push_back(i);
        std::ranges::stable_sort(ranking.order, [&](int a, int b) {
            return ranking.probability[at(a)] > ranking.probability[at(b)];
        });
        diagnosis::Evidence evidence = expertise_.complaint;
        diagnosis::Choice choice =
            choose(*hypotheses_, ranking, evidence, expertise_.consultation->workshop(), {open_, state_},
                   expertise_.permitted);
        if (choice.kind == diagnosis::Choice::Kind::repair) {
            // To look at suspects one after the other is how a group of them is repaired.
            if (entry.action.verb == Verb::inspect) return std::nullopt;
            return Alternative{std::move(choice)};
        }
        const double own_per_min = own_bits / std::max(entry.minutes, 0.1);
        if (choice.bits / std::max(choice.minutes, 0.1) < kClearlyMore * own_per_min) return std::nullopt;
        return Alternative{std::move(choice)};
    }

    void forget_improbable(const std::vector<double>& probability) {
        constexpr double kForgotten = 1e-7;
        std::vector<Suspected> left;
        for (std::size_t i = 0; i < suspected_.size(); ++i) {
            const int hypothesis = suspected_[i].hypothesis;
            if (hypothesis == 0 || hypothesis == truth_ || probability[i] > kForgotten)
                left.push_back(std::move(suspected_[i]));
        }
        suspected_ = std::move(left);
    }

    static constexpr double kNever = 1e300;

    const Session& session_;
    const Expertise& expertise_;
    int threads_;
    const TellHindsight& tell_;
    Foresight foresight_;
    std::shared_ptr<diagnosis::Hypotheses> hypotheses_;
    std::vector<Suspected> suspected_;
    OpenPlaces open_;
    int state_ = -1;
    int truth_ = 0;
};

}  // namespace

Hindsight hindsight_of(const Session& session, const Expertise& expertise, int threads,
                       const TellHindsight& tell) {
    return LookBack(session, expertise, threads, tell).run();
}

}  // namespace halfsplit::practice
