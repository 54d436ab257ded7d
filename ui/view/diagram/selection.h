#pragma once

#include <string>
#include <vector>

#include "engine/model/circuit.h"

namespace halfsplit::view::diagram {

/// What of a circuit is drawn: indices into its parts and wires, ascending.
struct Selection {
    std::vector<int> parts;
    std::vector<int> wires;  ///< both ends on selected parts
};

Selection everything(const model::Circuit& circuit);

/// These parts with everything on their ways to supply and ground, as wired: up from each of their pins and
/// down from it, through whatever is closed or could be. A control unit passed on the way comes with its own
/// supply and ground, a relay with its coil's. Unknown ids are passed over: who asks has checked them.
Selection ways_of(const model::Circuit& circuit, const std::vector<std::string>& part_ids);

}  // namespace halfsplit::view::diagram
