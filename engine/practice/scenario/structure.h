#pragma once

#include <span>
#include <string>
#include <string_view>

#include "engine/model/structure.h"

namespace halfsplit::practice {

inline constexpr std::string_view kScenarioNamespace = "urn:halfsplit:scenario";

/// The elements of scenario files, declared once for the reader and the schema.
std::span<const model::StructureSpec> scenario_structures();

/// `element` must be one of them (std::logic_error otherwise).
const model::StructureSpec& scenario_structure(std::string_view element);

/// The XML Schema of scenario files, written from these declarations: the text of scenarios/scenario.xsd.
std::string scenario_schema();

}  // namespace halfsplit::practice
