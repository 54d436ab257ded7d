#pragma once

#include <string>
#include <vector>

#include "engine/model/circuit.h"
#include "ui/view/diagram/geometry.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::test {

/// What somebody who reads the diagram would complain about, one sentence each; none if it is sound. The
/// rules are those of circuit diagrams in general (IEC 61082-1, from memory) and written here anew, without
/// the layout's own notion of rows, channels and lanes.
std::vector<std::string> lines_through_symbols(const view::diagram::Diagram& diagram);
/// Lines of different potential that run over each other, or bend or end on each other as if they were
/// joined.
std::vector<std::string> false_joints(const view::diagram::Diagram& diagram);
/// Text on text, on a line, or on a symbol it does not belong in.
std::vector<std::string> illegible_texts(const view::diagram::Diagram& diagram);
/// Wires that are not drawn exactly once, level and upright, from pin to pin, with colour and size beside
/// them.
std::vector<std::string> wires_amiss(const view::diagram::Diagram& diagram, const model::Circuit& circuit,
                                     const view::diagram::Selection& selection);
/// Parts without a symbol or rail, pins without a name beside them.
std::vector<std::string> parts_amiss(const view::diagram::Diagram& diagram, const model::Circuit& circuit,
                                     const view::diagram::Selection& selection);
/// Joints of three arms and more without a dot, and dots where nothing is joined.
std::vector<std::string> dots_amiss(const view::diagram::Diagram& diagram);
std::vector<std::string> out_of_bounds(const view::diagram::Diagram& diagram);

/// All of the above.
std::vector<std::string> all_complaints(const view::diagram::Diagram& diagram, const model::Circuit& circuit,
                                        const view::diagram::Selection& selection);

}  // namespace halfsplit::test
