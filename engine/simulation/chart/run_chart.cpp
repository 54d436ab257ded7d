#include "engine/simulation/chart/run_chart.h"

#include <algorithm>

#include "engine/simulation/chart/microstep.h"

namespace halfsplit::simulation {
namespace {

using model::chart::Chart;
using model::chart::Transition;

/// mainEventLoop of SCXML appendix D, as far as events are there.
class Run {
  public:
    explicit Run(Moment& moment) : moment_(moment), state_(moment.state) {}

    void to_rest() {
        take_due();
        macrostep();
        take_due();
        while (may_go_on() && !state_.external_events.empty()) {
            moment_.failed.clear();
            process(state_.external_events);
            macrostep();
            take_due();
        }
        if (state_.finished) leave_chart(moment_);
    }

  private:
    bool may_go_on() const { return !state_.finished && !moment_.problem; }

    /// Until neither a transition without event is enabled nor an internal event waits.
    void macrostep() {
        while (may_go_on()) {
            const Transitions enabled = select_eventless(moment_);
            if (!enabled.empty())
                take(enabled);
            else if (!state_.internal_events.empty())
                process(state_.internal_events);
            else
                return;
        }
    }

    void process(std::deque<std::string>& queue) {
        state_.event = std::move(queue.front());
        queue.pop_front();
        const Transitions enabled = select_for_event(moment_, state_.event);
        if (!enabled.empty()) take(enabled);
    }

    void take(const Transitions& enabled) {
        if (moment_.problem) return;
        if (++microsteps_ <= kMaxMicrosteps) return microstep(moment_, enabled);
        const Transition& last = *enabled.front();
        moment_.problem = {last.where, "the chart does not come to rest: more than " +
                                           std::to_string(kMaxMicrosteps) +
                                           " transitions at one moment, the last one from " +
                                           moment_.chart.state(last.source).id +
                                           "; a condition that becomes false or a delay is expected"};
    }

    /// Delayed events that are due go behind the external events that wait.
    void take_due() {
        auto& delayed = state_.delayed;
        const auto later = std::find_if(delayed.begin(), delayed.end(), [&](const DelayedEvent& event) {
            return event.due_s > moment_.now_s;
        });
        for (auto event = delayed.begin(); event != later; ++event)
            state_.external_events.push_back(std::move(event->event));
        delayed.erase(delayed.begin(), later);
    }

    Moment& moment_;
    ChartState& state_;
    int microsteps_ = 0;
};

void set_initial_values(Moment& moment) {
    for (const auto& item : moment.chart.data)
        moment.state.data.push_back(model::chart::empty_value(item.initial.type()));
    for (std::size_t i = 0; i < moment.chart.data.size(); ++i) {
        const model::chart::Expression& initial = moment.chart.data[i].initial;
        const Outcome outcome = evaluate(initial, moment.state, moment.senses);
        if (outcome.error == nullptr)
            moment.state.data[i] = to_value(outcome);
        else
            raise_error(moment, initial.where, outcome.error);
    }
}

}  // namespace

tl::expected<ChartState, ChartProblem> start_chart(const Chart& chart, const Senses& senses, double now_s) {
    ChartState state;
    Moment moment{chart, state, senses, now_s};
    set_initial_values(moment);
    enter_chart(moment);
    Run(moment).to_rest();
    if (moment.problem) return tl::unexpected(*moment.problem);
    return state;
}

void raise_event(ChartState& state, std::string name) {
    if (!state.finished) state.external_events.push_back(std::move(name));
}

bool wants_to_act(const Chart& chart, const ChartState& state, const Senses& senses, double now_s) {
    if (state.finished) return false;
    if (!state.external_events.empty() || !state.internal_events.empty()) return true;
    if (!state.delayed.empty() && state.delayed.front().due_s <= now_s) return true;
    const auto is_enabled = [&](const Transition& transition) {
        return transition.events.empty() &&
               (!transition.condition || evaluate(*transition.condition, state, senses).is_true());
    };
    return std::any_of(state.configuration.begin(), state.configuration.end(), [&](int active) {
        const auto& transitions = chart.state(active).transitions;
        return std::any_of(transitions.begin(), transitions.end(), is_enabled);
    });
}

std::optional<double> next_timer_s(const ChartState& state) {
    if (state.delayed.empty()) return std::nullopt;
    return state.delayed.front().due_s;
}

tl::expected<void, ChartProblem> act(const Chart& chart, ChartState& state, const Senses& senses,
                                     double now_s) {
    if (state.finished) return {};
    Moment moment{chart, state, senses, now_s};
    Run(moment).to_rest();
    if (moment.problem) return tl::unexpected(*moment.problem);
    return {};
}

}  // namespace halfsplit::simulation
