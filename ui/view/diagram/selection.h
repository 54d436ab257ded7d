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

/// These parts and the wires among them. Unknown ids are passed over: who asks has checked them.
Selection parts_named(const model::Circuit& circuit, const std::vector<std::string>& part_ids);

}  // namespace halfsplit::view::diagram
