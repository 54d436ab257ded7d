#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/state_base.h"

namespace halfsplit::diagnosis {

/// One row of a circuit that lives for a fault that comes while everything stands as in the sound vehicle,
/// by building the network anew.
Told row_as_it_stands(const model::Circuit& circuit, const StateBase& base, const network::Fault& fault,
                      const std::vector<Finding>& findings, std::span<float> row);

}  // namespace halfsplit::diagnosis
