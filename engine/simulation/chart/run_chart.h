#pragma once

#include <optional>
#include <string>

#include <tl/expected.hpp>

#include "engine/model/chart/chart.h"
#include "engine/simulation/chart/chart_state.h"
#include "engine/simulation/chart/senses.h"

namespace halfsplit::simulation {

// Runs state charts by the algorithm in appendix D of the SCXML recommendation (W3C, 1 September 2015). Two
// things are ours: time stands still within a call (`now_s` is the caller's, in s), and conditions of
// transitions without event are looked at again in every call, because voltages change between events.

/// A unit that comes to power again starts anew with this: initial values, initial states, run until stable.
tl::expected<ChartState, ChartProblem> start_chart(const model::chart::Chart& chart, const Senses& senses,
                                                   double now_s);

/// Puts the event at the end of the external queue; act() processes it. A finished chart takes none.
void raise_event(ChartState& state, std::string name);

/// Whether act() would do anything: an event waits, a delayed one is due, or a transition without event is
/// enabled. Takes no memory; meant to be called in every step of a simulation.
bool wants_to_act(const model::chart::Chart& chart, const ChartState& state, const Senses& senses,
                  double now_s);

/// When the next delayed event is due.
std::optional<double> next_timer_s(const ChartState& state);

/// Puts the delayed events that are due behind those that wait, then processes events and transitions without
/// event until none is left. A chart that does not come to rest within kMaxMicrosteps, or lets more than
/// kMaxWaiting events wait, is a problem at the transition or action reached then.
tl::expected<void, ChartProblem> act(const model::chart::Chart& chart, ChartState& state,
                                     const Senses& senses, double now_s);

/// At one moment; real behaviour takes a handful.
inline constexpr int kMaxMicrosteps = 1000;
/// In each queue, and delayed.
inline constexpr int kMaxWaiting = 1000;
/// Lines of log nobody has taken; one more says that the rest is lost.
inline constexpr int kMaxLogLines = 10'000;

}  // namespace halfsplit::simulation
