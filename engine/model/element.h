#pragma once

#include <string>
#include <vector>

#include "engine/model/law.h"

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
};

/// What a trigger watches. Voltage and current count by magnitude.
enum class Observed { element_voltage_v, element_current_a, quantity };

/// How a part changes its own condition: a relay by its coil's voltage, a thermo-switch by a temperature, a
/// fuse by its current (which acts last: heat takes seconds where magnets take milliseconds; `fall` below 0 =
/// never goes back). At or above `rise` the part goes to condition `above`, at or below `fall` to `below`,
/// between it stays as it is.
struct Trigger {
    Observed observed = Observed::element_voltage_v;
    std::string subject;  ///< the element's name, or the quantity's id
    double rise = 0;
    double fall = 0;
    int above = 0;
    int below = 0;
};

/// A part as the network sees it, for the values that count now.
struct Electrics {
    std::vector<Element> elements;
    std::vector<Trigger> triggers;
    int inner_nodes = 0;  ///< how many terminals beyond the pins the elements use
};

}  // namespace halfsplit::model
