#pragma once

#include <string>
#include <vector>

#include "engine/tracing/wiring.h"

namespace halfsplit::tracing {

/// What one current path of a part is there for: a lamp's filament, a relay's coil, a light-emitting diode
/// with the resistor before it. Elements that meet inside the part, or lie side by side, are one load.
struct LoadGroup {
    std::string name;  ///< the part's id, or "K2.coil" where the part has more than one load or does more
    int part = 0;
    std::vector<int> branches;   ///< one per element
    std::vector<int> terminals;  ///< vertices where something else than this load is joined
};

/// All loads of a circuit, in the author's order. Instruments are none.
std::vector<LoadGroup> load_groups(const Wiring& wiring);

}  // namespace halfsplit::tracing
