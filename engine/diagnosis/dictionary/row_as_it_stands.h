#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/state_base.h"

namespace halfsplit::diagnosis {

/// From what conditions a vehicle with a fault comes to rest: those the sound one stands in, or asleep, see
/// Waking.
enum class Start { standing, asleep };

/// One row of a circuit that lives for faults that come while everything stands as in the sound vehicle, by
/// building the network anew.
Told row_as_it_stands(const model::Circuit& circuit, const StateBase& base,
                      const std::vector<network::Fault>& faults, Start start,
                      const std::vector<Finding>& findings, std::span<float> row);

}  // namespace halfsplit::diagnosis
