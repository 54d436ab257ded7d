#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/instruments/live_bench.h"

namespace halfsplit::window {

/// The way that the current through something takes, from where it is fed to ground.
struct Way {
    struct Stop {
        std::string what;   ///< "W31", "F7 Horns"
        std::string volts;  ///< where it comes to
        std::string note;   ///< "OPEN", "load, 3.21 A"
    };
    std::string heading;
    std::vector<Stop> stops;             ///< the first is number 1
    std::map<std::string, int> numbers;  ///< by wire, part, and point of a part
};

/// As things are now. Where nothing flows: how it is fed and how it gets to ground as wired, with what is
/// open on the way. Empty where there is nothing of this name in the wiring.
Way way_through(const instruments::LiveBench& bench, const std::string& name);

}  // namespace halfsplit::window
