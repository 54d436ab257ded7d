#include "engine/simulation/course_state.h"

namespace halfsplit::simulation {

void count_from_now(CourseState& state) {
    const double origin_s = state.now_s;
    state.now_s = 0;
    state.seen_s -= origin_s;
    state.next_tick_s -= origin_s;
    for (auto& waiting : state.waiting)
        if (waiting) waiting->due_s -= origin_s;
    for (Beat& beat : state.beats) beat.next_s -= origin_s;
    for (Ramp& ramp : state.ramps) {
        ramp.start_s -= origin_s;
        ramp.end_s -= origin_s;
    }
    for (TimedSet& set : state.to_come) set.at_s -= origin_s;
    for (UnitState& unit : state.units) {
        unit.next_round_s -= origin_s;
        for (InputState& input : unit.inputs) input.rose_s -= origin_s;
        for (Duty& duty : unit.duties) duty.next_s -= origin_s;
        if (!unit.chart) continue;
        for (DelayedEvent& event : unit.chart->delayed) event.due_s -= origin_s;
        for (LogLine& line : unit.chart->log) line.at_s -= origin_s;
    }
}

}  // namespace halfsplit::simulation
