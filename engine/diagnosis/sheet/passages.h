#pragma once

#include <string>
#include <vector>

#include "engine/tracing/load_group.h"
#include "engine/tracing/step.h"

namespace halfsplit::diagnosis {

/// A part that a current goes through, from the point it comes in at to the point it leaves by, both on the
/// harness side of the part's plug; with the wires that lead there from the passage before.
struct Passage {
    enum class Kind {
        supply,   ///< where the current comes from
        fuse,     ///< a fuse, a breaker
        contact,  ///< of a switch, a relay, a control unit's output
        load,     ///< what the current is there for, or what is in series with that
        joint,    ///< a coupling: no more than wires joined
        ground    ///< a ground point
    };
    Kind kind = Kind::joint;
    int part = 0;
    std::string in;   ///< "F7.1"
    std::string out;  ///< "F7.2"; "body" behind a ground point
    std::vector<int> wires = {};
};

/// The way a load's current takes, from supply to ground.
struct LiveWay {
    double current_a = 0;
    std::vector<Passage> passages;
    /// All nodes it comes by, in order, and the fuse passed last before each: index of the part, or -1.
    struct Stop {
        int node = 0;
        int fuse = -1;
    };
    std::vector<Stop> stops;
};

/// One for each load that carries current, by the branch of it that carries most; the author's order.
std::vector<LiveWay> live_ways(const tracing::Wiring& wiring);

}  // namespace halfsplit::diagnosis
