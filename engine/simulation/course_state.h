#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/diagnostic.h"
#include "engine/network/situation.h"
#include "engine/simulation/chart/chart_state.h"
#include "engine/simulation/integrator.h"

namespace halfsplit::simulation {

inline constexpr double kNever = std::numeric_limits<double>::infinity();

/// Something is set at a time: a position, a condition, a way in percent, or a quantity, which may take
/// `over_s` to get there in a straight line.
struct TimedSet {
    double at_s = 0;
    std::string what;
    std::string to;
    double over_s = 0;
    Location where = {};  ///< in the file that says so, where there is one
};

/// What a person could have seen, heard or measured, and when.
struct CourseEvent {
    double at_s = 0;
    std::string subject;  ///< a part's id
    std::string what;     ///< "energised", "blown"
    bool inside = false;  ///< only who can look inside a control unit could know
};

/// A quantity on its way from one value to another.
struct Ramp {
    std::string quantity;
    double from = 0;
    double to = 0;
    double start_s = 0;
    double end_s = 0;
};

/// A trigger has seen enough and waits for its delay.
struct Waiting {
    int condition = 0;
    double due_s = 0;
};

struct Beat {
    double next_s = kNever;
    bool hurries = false;
};

/// An input of a control unit that it follows.
struct InputState {
    bool high = false;
    double rose_s = -kNever;   ///< when it went high last
    double period_s = kNever;  ///< between the last two times
};

/// A driver that is on for a share of the time.
struct Duty {
    int driver = 0;
    double share = 0;
    double next_s = kNever;
};

/// A control unit at work; no chart: it has no power.
struct UnitState {
    std::optional<ChartState> chart;
    double next_round_s = -kNever;  ///< when its program looks round again
    std::vector<InputState> inputs;
    std::vector<Duty> duties;
    std::vector<int> tripped;  ///< drivers that stay off until told to be off and on again
};

/// All that decides how a course goes on: a copy of it goes on to the same bits.
struct CourseState {
    double now_s = 0;                             ///< the last moment that was stepped to
    double seen_s = 0;                            ///< how far beyond it the course has been followed
    double step_s = 0;                            ///< to try next
    network::Situation situation;                 ///< as set by now
    std::vector<int> conditions;                  ///< see network::Network
    std::vector<std::optional<Waiting>> waiting;  ///< one per trigger
    std::vector<Beat> beats;                      ///< one per oscillator
    std::vector<UnitState> units;
    std::vector<Ramp> ramps;
    double next_tick_s = kNever;    ///< when quantities that ramp are looked at again
    std::vector<TimedSet> to_come;  ///< by time
    IntegratorState stored;
};

/// Counts all times from now on: now becomes 0 s.
void count_from_now(CourseState& state);

}  // namespace halfsplit::simulation
