#pragma once

#include <vector>

#include "engine/model/reading/draft.h"
#include "engine/xml/document.h"

namespace halfsplit::model::reading {

// The sections of a circuit file, each read into the draft. Errors are reported and what they concern is left
// out.

void read_quantities(const Context& context, const xml::Element& quantities, Draft& draft);
void read_places(const Context& context, const xml::Element& places, Draft& draft);

/// Where a part of this file came from, for the checks that need the whole circuit.
struct PartSource {
    int part = 0;
    const xml::Element* element = nullptr;
};
std::vector<PartSource> read_parts(const Context& context, const xml::Element& parts, Draft& draft);

/// That places, quantities and other parts the parts name are there, and that no id reads like a pin of
/// another part. Every part must be in the draft.
void check_references(const Context& context, const std::vector<PartSource>& sources, const Draft& draft);

/// Every part must be in the draft.
void read_harness(const Context& context, const xml::Element& harness, Draft& draft);

/// Every part and quantity must be in the draft.
void read_states(const Context& context, const xml::Element& states, Draft& draft);

/// What is wrong with setting `what` to `to`, and with which of the two.
struct SetProblem {
    std::string_view attribute;
    std::string message;
};
std::optional<SetProblem> set_problem(const Draft& draft, std::string_view what, std::string_view to);

}  // namespace halfsplit::model::reading
