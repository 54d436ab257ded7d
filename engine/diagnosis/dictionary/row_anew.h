#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/simulation/settle.h"

namespace halfsplit::diagnosis {

/// One row by settling anew with the faults present from the start; NaN where that comes to nothing.
/// `pulses`: what pulses in the sound vehicle, see Dictionary.
Told row_anew(const model::Circuit& circuit, const model::OperatingState& state,
              const std::vector<network::Fault>& faults, const std::vector<Finding>& findings,
              const Pulses& pulses, std::span<float> row);

/// The same where it has settled already.
Told row_of_settled(const model::Circuit& circuit, const simulation::Settled& settled,
                    const std::vector<Finding>& findings, const Pulses& pulses, std::span<float> row);

}  // namespace halfsplit::diagnosis
