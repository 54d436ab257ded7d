#pragma once

#include <string>
#include <vector>

#include "engine/diagnosis/fault_universe.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// Fault, its share of all faults in per cent, what it means.
Table fault_table(const std::vector<diagnosis::PossibleFault>& universe);

/// {"circuit", "faults":[{"fault","rate","share","unit","text"}, …]}
std::string fault_json(const model::Circuit& circuit, const std::vector<diagnosis::PossibleFault>& universe);

}  // namespace halfsplit::view
