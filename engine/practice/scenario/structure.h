#pragma once

#include <span>
#include <string_view>

#include "engine/model/structure.h"

namespace halfsplit::practice {

inline constexpr std::string_view kScenarioNamespace = "urn:halfsplit:scenario";

/// The elements of scenario files, declared once for the reader and the schema.
std::span<const model::StructureSpec> scenario_structures();

/// `element` must be one of them (std::logic_error otherwise).
const model::StructureSpec& scenario_structure(std::string_view element);

}  // namespace halfsplit::practice
