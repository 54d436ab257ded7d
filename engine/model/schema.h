#pragma once

#include <string>

namespace halfsplit::model {

/// The XML Schema of circuit files, written from the declarations of part kinds and structures: the text of
/// circuits/circuit.xsd. It knows elements, attributes, ranges, choices and ids given twice; what needs more
/// than one place to decide (points, includes, states) only the reader checks.
std::string circuit_schema();

}  // namespace halfsplit::model
