#include "engine/simulation/chart/select_transitions.h"

#include <algorithm>
#include <map>

namespace halfsplit::simulation {
namespace {

using model::chart::Chart;
using model::chart::State;
using model::chart::Transition;

/// `event` nullptr: transitions without event.
bool is_triggered(const Transition& transition, const std::string_view* event) {
    if (event == nullptr) return transition.events.empty();
    return std::any_of(transition.events.begin(), transition.events.end(),
                       [&](const std::string& descriptor) { return matches(descriptor, *event); });
}

const Transition* first_enabled(Moment& moment, const State& state, const std::string_view* event) {
    for (const Transition& transition : state.transitions)
        if (is_triggered(transition, event) &&
            (!transition.condition || condition_holds(moment, *transition.condition)))
            return &transition;
    return nullptr;
}

/// Active states overlap below two domains only where one holds the other: both are active themselves.
bool conflict(const Chart& chart, const Transition& a, const Transition& b) {
    if (a.domain < 0 || b.domain < 0) return false;
    return a.domain == b.domain || chart.is_descendant(a.domain, b.domain) ||
           chart.is_descendant(b.domain, a.domain);
}

/// removeConflictingTransitions of appendix D.
Transitions without_conflicts(const Chart& chart, const Transitions& enabled) {
    Transitions kept;
    for (const Transition* candidate : enabled) {
        const auto beats_candidate = [&](const Transition* other) {
            return conflict(chart, *candidate, *other) &&
                   !chart.is_descendant(candidate->source, other->source);
        };
        if (std::any_of(kept.begin(), kept.end(), beats_candidate)) continue;
        const auto is_beaten = [&](const Transition* other) { return conflict(chart, *candidate, *other); };
        kept.erase(std::remove_if(kept.begin(), kept.end(), is_beaten), kept.end());
        kept.push_back(candidate);
    }
    return kept;
}

Transitions select(Moment& moment, const std::string_view* event) {
    const Chart& chart = moment.chart;
    std::map<int, const Transition*> known;  ///< of ancestors that several atomic states share
    Transitions enabled;
    for (const int active : moment.state.configuration) {
        if (!chart.state(active).children.empty()) continue;
        for (int state = active; state > 0; state = chart.state(state).parent) {
            const auto [entry, is_new] = known.try_emplace(state, nullptr);
            if (is_new) entry->second = first_enabled(moment, chart.state(state), event);
            if (entry->second == nullptr) continue;
            if (is_new) enabled.push_back(entry->second);
            break;
        }
    }
    return without_conflicts(chart, enabled);
}

}  // namespace

bool matches(std::string_view descriptor, std::string_view event) {
    if (descriptor == "*") return true;
    return event.starts_with(descriptor) &&
           (event.size() == descriptor.size() || event[descriptor.size()] == '.');
}

Transitions select_eventless(Moment& moment) {
    return select(moment, nullptr);
}

Transitions select_for_event(Moment& moment, std::string_view event) {
    return select(moment, &event);
}

}  // namespace halfsplit::simulation
