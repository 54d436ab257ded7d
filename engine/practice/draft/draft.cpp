#include "engine/practice/draft/draft.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/base/index.h"
#include "engine/diagnosis/suspects/groups.h"
#include "engine/instruments/instrument.h"
#include "engine/practice/draft/complaint.h"
#include "engine/practice/draft/symptoms.h"

namespace halfsplit::practice {

using diagnosis::Consultation;
using diagnosis::Dictionary;

namespace {

/// A budget leaves room for detours: so many times the best strategy's minutes, in steps of five.
constexpr double kRoom = 2;
constexpr double kBudgetStepMin = 5;

class Drafter {
  public:
    Drafter(const model::Circuit& circuit, std::shared_ptr<const Consultation> consultation,
            const DraftOptions& options, const TellDraft& tell)
        : circuit_(circuit),
          consultation_(std::move(consultation)),
          dictionary_(consultation_->dictionary()),
          options_(options),
          tell_(tell),
          generator_(options.seed) {}

    std::vector<Draft> run() {
        const std::vector<int> order = faults_in_random_order();
        for (const bool may_repeat_symptoms : {false, true})
            for (const int fault : order) {
                if (is_enough() || tried_ >= options_.tries_at_most) return std::move(drafts_);
                if (!was_tried(fault, may_repeat_symptoms)) try_fault(fault, may_repeat_symptoms);
            }
        return std::move(drafts_);
    }

  private:
    bool is_enough() const { return static_cast<int>(drafts_.size()) >= options_.count; }

    /// Each fault before another with a probability by their rates (Efraimidis & Spirakis, Inf. Process.
    /// Lett. 97(5), 2006).
    std::vector<int> faults_in_random_order() {
        std::vector<std::pair<double, int>> keys;
        for (int fault = 0; fault < static_cast<int>(dictionary_.faults.size()); ++fault) {
            const double even = (static_cast<double>(generator_() >> 11U) + 0.5) * 0x1p-53;
            const double rate = dictionary_.faults[at(fault)].rate;
            if (rate > 0) keys.emplace_back(std::log(even) / rate, fault);
        }
        std::ranges::sort(keys, std::greater<>{});
        std::vector<int> order;
        order.reserve(keys.size());
        for (const auto& [key, fault] : keys) order.push_back(fault);
        return order;
    }

    bool was_tried(int fault, bool may_repeat_symptoms) const {
        const bool is_postponed = std::ranges::find(postponed_, fault) != postponed_.end();
        return may_repeat_symptoms && !is_postponed;
    }

    bool is_alike(int fault) const {
        diagnosis::TellingApart differ(consultation_->hypotheses(), consultation_->permitted());
        return std::ranges::any_of(taken_, [&](int taken) { return !differ(fault + 1, taken + 1); });
    }

    void try_fault(int fault, bool may_repeat_symptoms) {
        const auto presentations = presentations_of(circuit_, dictionary_, fault);
        if (presentations.empty()) return;
        const Presentation& presentation = presentations.front();
        const bool is_known = std::ranges::find(shown_, presentation) != shown_.end();
        if (is_known && !may_repeat_symptoms) {
            postponed_.push_back(fault);
            return;
        }
        if (is_alike(fault)) return;
        ++tried_;
        if (tell_) tell_(tried_, static_cast<int>(drafts_.size()));
        Draft draft{scenario_for(fault, presentation), {}};
        const auto expertise = expertise_with(draft.scenario, circuit_, consultation_);
        if (!expertise) return;
        draft.scenario.budget_min = 1000;
        draft.fairness = fairness_of(draft.scenario, *expertise);
        if (!draft.fairness.problems.empty()) return;
        draft.scenario.budget_min =
            std::ceil(draft.fairness.way.minutes() * kRoom / kBudgetStepMin) * kBudgetStepMin;
        draft.scenario.id += "-" + std::to_string(drafts_.size() + 1);
        shown_.push_back(presentation);
        taken_.push_back(fault);
        drafts_.push_back(std::move(draft));
    }

    Scenario scenario_for(int fault, const Presentation& presentation) {
        Scenario scenario;
        scenario.id = circuit_.id + "-level-" + std::to_string(options_.level);
        scenario.level = options_.level;
        const auto state = std::ranges::find(circuit_.states, dictionary_.states[at(presentation.state)],
                                             &model::OperatingState::id);
        const int state_index = static_cast<int>(state - circuit_.states.begin());
        for (const diagnosis::Reading& reading : presentation.readings) {
            if (static_cast<int>(scenario.symptoms.size()) == kMostSymptoms) break;
            scenario.symptoms.push_back(
                {state_index, dictionary_.findings[at(reading.finding)], reading.value, {}});
        }
        for (const instruments::Instrument& each : instruments::instruments())
            scenario.instruments.emplace_back(each.id);
        scenario.faults.push_back(dictionary_.faults[at(fault)].fault);
        scenario.title = title_for(circuit_, scenario.symptoms);
        const int days = static_cast<int>(generator_() % 6) + 2;
        scenario.job_card = {"A vehicle with this circuit, invented",
                             static_cast<double>(generator_() % 180 + 12) * 1000,
                             complaint_for(circuit_, scenario.symptoms, days),
                             {}};
        return scenario;
    }

    const model::Circuit& circuit_;
    std::shared_ptr<const Consultation> consultation_;
    const Dictionary& dictionary_;
    DraftOptions options_;
    const TellDraft& tell_;
    std::mt19937_64 generator_;
    std::vector<Draft> drafts_;
    std::vector<Presentation> shown_;
    std::vector<int> taken_;
    std::vector<int> postponed_;
    int tried_ = 0;
};

}  // namespace

std::vector<Draft> draft_scenarios(const model::Circuit& circuit,
                                   const std::shared_ptr<const Consultation>& consultation,
                                   const DraftOptions& options, const TellDraft& tell) {
    return Drafter(circuit, consultation, options, tell).run();
}

}  // namespace halfsplit::practice
