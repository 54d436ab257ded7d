#pragma once

#include <string>
#include <vector>

#include "engine/model/circuit.h"

namespace halfsplit::model {

/// Indices of the states that the file at `path` itself has, without those of the circuits it includes; all
/// where it has none of its own.
std::vector<int> own_states(const Circuit& circuit, const std::string& path);

/// Their ids.
std::vector<std::string> own_state_ids(const Circuit& circuit, const std::string& path);

}  // namespace halfsplit::model
