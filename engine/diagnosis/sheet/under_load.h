#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/sheet/passages.h"
#include "engine/diagnosis/sheet/practice.h"

namespace halfsplit::diagnosis {

/// A current below this drops less than practice allows even over a bad joint of half an ohm: the drop proves
/// nothing (derived from 0.1 V for a ground).
inline constexpr double kUnderLoadA = 0.2;

/// Something a current of kUnderLoadA or more goes through, and what practice allows there.
struct UnderLoad {
    Practice practice = Practice::none;  ///< none: a load's own pin, for the voltage that gets there
    std::string at;
    std::string against;  ///< "body" for grounds and load pins
    int part = -1;        ///< of fuses
    std::vector<int> wires = {};
    int couplings = 0;  ///< contacts of couplings on a run of wire or a way to ground
};

/// In the order of the ways, each once: fuses, switching contacts, runs of wire from place to place (from the
/// last fuse, contact or load to the next), the pins of loads, and what is left on the way to ground.
std::vector<UnderLoad> under_load(const model::Circuit& circuit, const std::vector<LiveWay>& ways);

}  // namespace halfsplit::diagnosis
