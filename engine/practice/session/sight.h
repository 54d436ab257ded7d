#pragma once

#include <string>

#include "engine/model/circuit.h"
#include "engine/network/fault.h"

namespace halfsplit::practice {

/// What somebody sees who has it in hand, on the bench where need be: "rubbed through on the way from Rear
/// left to Tailgate, bare copper shows …". Of faults that look as they are described, what the kind says.
std::string sight_of(const model::Circuit& circuit, const network::Fault& fault);

}  // namespace halfsplit::practice
