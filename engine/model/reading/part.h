#pragma once

#include <optional>

#include "engine/model/circuit.h"
#include "engine/model/reading/fields.h"

namespace halfsplit::model::reading {

/// Reads one child of <parts> by its kind's declaration. What it refers to outside itself (place, quantities,
/// other parts) is left to check_references. nullopt where something is wrong; it has been reported.
std::optional<Part> read_part(const Context& context, const xml::Element& element);

/// The pins, authored or the kind's.
std::vector<Pin> read_pins(const Context& context, const xml::Element& element, const PartKind& kind);

/// The positions, authored or the kind's conditions.
std::vector<Position> read_positions(const Context& context, const xml::Element& element, const Part& part);

std::vector<FaultRate> read_fault_rates(const Context& context, const xml::Element& element);

/// Rates of faults the part does not have, reported. `part` is complete otherwise.
void check_fault_rates(const Context& context, const xml::Element& element, const Part& part);

/// Values that are each in range but do not go together.
void check_values_together(const Context& context, const xml::Element& element, const Part& part);

/// The number of the part by its name; NaN where the kind has none of that name or none is given.
double part_number(const Part& part, std::string_view name);

}  // namespace halfsplit::model::reading
