#pragma once

#include <string>
#include <vector>

#include "engine/network/fault.h"

namespace halfsplit::window {

/// Whether a fault's text is about a part or wire: "open:K2.85" is about K2, "open:K21.85" is not.
bool is_about(const std::string& fault, const std::string& name);

/// Those of all that are about it.
std::vector<std::string> faults_about(const std::vector<std::string>& all, const std::string& name);

/// What to mark on the paper: the point of a contact, else the wire or the part.
std::string marked_by(const model::Circuit& circuit, const network::Fault& fault);

}  // namespace halfsplit::window
