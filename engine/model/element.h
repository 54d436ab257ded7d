#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/model/law.h"
#include "engine/model/slow_change.h"
#include "engine/model/store.h"

namespace halfsplit::model {

/// A terminal of an element: 0 … pins-1 is the part's own pin of that index (behind its plug contact), pins
/// and above are nodes inside the part that no lead can reach, kBodyTerminal is the vehicle body the part is
/// bolted to.
using Terminal = int;
inline constexpr Terminal kBodyTerminal = -1;

/// One two-terminal element inside a part.
struct Element {
    /// "coil", "30-87", "filament". Elements of one name in one part are one thing with different laws in
    /// different conditions (a motor's armature turning or stalled): at most one of them conducts at a time.
    std::string name;
    Terminal from = 0;
    Terminal to = 0;
    Law law;
    std::vector<int> conducts_in = {};  ///< conditions (indices) in which it conducts; empty = in all of them
    bool contact = false;               ///< a switching contact that can fail on its own
    Store store = {};                   ///< what delays it
    SlowChange change = {};             ///< how it creeps while it works
    /// The pin of a control unit whose output this is: then `conducts_in` counts what the output does, see
    /// driver_levels.h, and not the part's condition.
    std::string driver = {};
};

/// What a trigger watches. Voltage and current count by magnitude.
enum class Observed { element_voltage_v, element_current_a, quantity };

/// How a part changes its own condition: a relay by its coil's voltage, a thermo-switch by a temperature, a
/// fuse by its current (which acts last: heat takes seconds where magnets take milliseconds; `fall` below 0 =
/// never goes back). At or above `rise` the part goes to condition `above`, at or below `fall` to `below`,
/// between it stays as it is.
///
/// In time, what has risen acts `rise_delay_s` later, what has fallen `fall_delay_s` later, if it is still so
/// then. With `heat_s` above 0 the current does not act itself but heats: h' = ((i / rise)^2 - h) / heat_s;
/// the part acts when h reaches 1, and goes back when h has cooled to `cooled` (0: never).
struct Trigger {
    Observed observed = Observed::element_voltage_v;
    std::string subject;  ///< the element's name, or the quantity's id
    double rise = 0;
    double fall = 0;
    int above = 0;
    int below = 0;
    double rise_delay_s = 0;
    double fall_delay_s = 0;
    double heat_s = 0;
    double cooled = 0;
    int also_above = -1;  ///< a condition that counts as `above` (a unit asleep is powered)
};

/// A part that switches itself to and fro. The rate is `rate_hz`, times the quantity named in `quantity`
/// where there is one. It begins a period in `on` and spends half of it there. One that watches an element
/// waits in `on` until the current there reaches `starts_at_a`, and when it ends that half with less than
/// `hurries_below_a` the other half and the next go at twice the rate.
struct Oscillator {
    int on = 0;
    int off = 0;
    double rate_hz = 0;
    std::string quantity = {};
    std::string watched = {};
    double starts_at_a = 0;
    double hurries_below_a = 0;
};

/// What a rotor moves, from 0 (its start) to 1 (its end).
struct Travel {
    std::string motor = {};     ///< the part whose rotor moves it; "" = this part itself
    double travel_s = 0;        ///< from start to end at the speed of ordinary work at nominal voltage
    double start = 0;           ///< where it stands at the outset
    double load_factor = 1;     ///< how much heavier than the motor's ordinary load
    bool round = false;         ///< it turns for ever: from 1 it goes on at 0
    bool jammed = false;        ///< it cannot move at all
    std::string obstacle = {};  ///< quantity: percent of the travel beyond which something is in the way
    std::string latch = {};     ///< solenoid without whose pull it does not leave one of its ends
    bool latched_at_start = false;
};

/// The conditions of a part with a rotor: turning, or standing blocked at an end of what it moves.
struct Blocking {
    int turning = 0;
    int at_start = 0;
    int at_end = 0;
};

/// A switch moved by a mechanism: `near` an end of its travel it is in another condition than `away` from it.
struct Follower {
    std::string mechanism;
    bool at_start = false;
    double within = 0;  ///< share of the travel
    int away = 0;
    int near = 1;
};

/// A part as the network sees it, for the values that count now.
struct Electrics {
    std::vector<Element> elements;
    std::vector<Trigger> triggers;
    int inner_nodes = 0;  ///< how many terminals beyond the pins the elements use
    std::optional<Oscillator> oscillator = {};
    std::optional<Travel> travel = {};
    std::optional<Blocking> blocking = {};
    std::optional<Follower> follower = {};
    std::set<std::string, std::less<>> felt = {};  ///< quantities that the values above depend on
};

}  // namespace halfsplit::model
