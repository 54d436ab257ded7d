#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/model/chart/chart.h"
#include "engine/model/chart/value.h"

namespace halfsplit::simulation {

/// An event sent with a delay that has not come yet.
struct DelayedEvent {
    std::string event;
    std::string send_id;  ///< "" where it cannot be cancelled
    double due_s = 0;
    std::uint64_t order = 0;  ///< of sending: decides between those due at the same time
};

struct LogLine {
    double at_s = 0;
    std::string text;
};

/// What a control unit's state chart is doing at a moment: a plain value beside the chart it belongs to. A
/// copy of it goes on exactly as the original does.
struct ChartState {
    std::vector<int> configuration;  ///< indices of the active states, ascending; the root is not among them
    std::vector<model::chart::Value> data;  ///< in the order of the chart's data
    std::string event;                      ///< name of the event processed last, which is `_event`
    std::deque<std::string> internal_events;
    std::deque<std::string> external_events;
    std::vector<DelayedEvent> delayed;  ///< by due time, then by order
    std::uint64_t next_order = 0;
    /// What the chart has told each driver; a driver it has not named yet is off.
    std::map<std::string, model::chart::DriverLevel, std::less<>> drives;
    bool asleep = false;       ///< the unit draws its sleep current
    bool finished = false;     ///< a final state outside all others was entered: it does nothing any more
    std::vector<LogLine> log;  ///< since it was last taken; errors of evaluation are among them
};

/// What keeps a chart from coming to rest.
struct ChartProblem {
    Location where;
    std::string message;
};

/// Takes what has been logged out of the state.
std::vector<LogLine> take_log(ChartState& state);

}  // namespace halfsplit::simulation
