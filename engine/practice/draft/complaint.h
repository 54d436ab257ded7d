#pragma once

#include <string>
#include <vector>

#include "engine/practice/scenario/scenario.h"

namespace halfsplit::practice {

/// No customer lists more than this.
inline constexpr int kMostSymptoms = 3;

/// What a customer says who sees these symptoms, for somebody to put into better words: "Ignition on, button
/// pressed: the low note horn stays silent. It has been like this for 3 days."
std::string complaint_for(const model::Circuit& circuit, const std::vector<Symptom>& symptoms, int days);

/// "Horn, low note: silent"
std::string title_for(const model::Circuit& circuit, const std::vector<Symptom>& symptoms);

}  // namespace halfsplit::practice
