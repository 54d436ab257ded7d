#include "engine/simulation/chart/microstep.h"

#include <algorithm>

#include "engine/simulation/chart/entry_set.h"

namespace halfsplit::simulation {
namespace {

using model::chart::Block;
using model::chart::Chart;
using model::chart::State;
using model::chart::StateKind;
using model::chart::Transition;

void exit_state(Moment& moment, int index) {
    for (const Block& block : moment.chart.state(index).on_exit) carry_out(moment, block);
    auto& configuration = moment.state.configuration;
    configuration.erase(std::lower_bound(configuration.begin(), configuration.end(), index));
}

void exit_states(Moment& moment, const Transitions& enabled) {
    const auto is_left = [&](int state) {
        return std::any_of(enabled.begin(), enabled.end(), [&](const Transition* transition) {
            return transition->domain >= 0 && moment.chart.is_descendant(state, transition->domain);
        });
    };
    std::vector<int> leaving;
    std::copy_if(moment.state.configuration.rbegin(), moment.state.configuration.rend(),
                 std::back_inserter(leaving), is_left);
    for (const int state : leaving) exit_state(moment, state);
}

/// isInFinalState of appendix D; recurses as deep as states nest.
bool is_done(const Moment& moment, int index) {
    const Chart& chart = moment.chart;
    const State& state = chart.state(index);
    const auto& active = moment.state.configuration;
    const auto is_final_child = [&](int child) {
        return chart.state(child).kind == StateKind::final &&
               std::binary_search(active.begin(), active.end(), child);
    };
    if (state.kind == StateKind::compound)
        return std::any_of(state.children.begin(), state.children.end(), is_final_child);
    return state.kind == StateKind::parallel &&
           std::all_of(state.children.begin(), state.children.end(),
                       [&](int child) { return is_done(moment, child); });
}

void announce_final(Moment& moment, const State& final) {
    const State& parent = moment.chart.state(final.parent);
    if (parent.kind == StateKind::root) {
        moment.state.finished = true;
        return;
    }
    raise_internal(moment, "done.state." + parent.id, final.where);
    if (moment.chart.state(parent.parent).kind == StateKind::parallel && is_done(moment, parent.parent))
        raise_internal(moment, "done.state." + moment.chart.state(parent.parent).id, final.where);
}

void enter_states(Moment& moment, const EntrySet& set) {
    auto& configuration = moment.state.configuration;
    for (const int index : set.states) {
        const State& state = moment.chart.state(index);
        configuration.insert(std::lower_bound(configuration.begin(), configuration.end(), index), index);
        for (const Block& block : state.on_entry) carry_out(moment, block);
        if (set.by_default.count(index) > 0) carry_out(moment, state.initial_actions);
        if (state.kind == StateKind::final) announce_final(moment, state);
    }
}

}  // namespace

void microstep(Moment& moment, const Transitions& enabled) {
    exit_states(moment, enabled);
    for (const Transition* transition : enabled) carry_out(moment, transition->actions);
    EntrySet set;
    for (const Transition* transition : enabled)
        add_entries(moment.chart, transition->targets, transition->domain, set);
    enter_states(moment, set);
}

void enter_chart(Moment& moment) {
    EntrySet set;
    add_entries(moment.chart, moment.chart.state(0).initial, 0, set);
    enter_states(moment, set);
}

void leave_chart(Moment& moment) {
    auto& state = moment.state;
    while (!state.configuration.empty()) exit_state(moment, state.configuration.back());
    state.internal_events.clear();
    state.external_events.clear();
    state.delayed.clear();
}

}  // namespace halfsplit::simulation
