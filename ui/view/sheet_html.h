#pragma once

#include <string>

#include "engine/diagnosis/sheet/sheet.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view {

/// The sheet as one HTML page to print on A4: head with room for date and vehicle, cautions, the diagram of
/// the selected parts, and for each state how to come to it and a table with an empty column `measured`.
/// Needs no other file. The same sheet gives the same text.
std::string sheet_html(const model::Circuit& circuit, const diagnosis::Sheet& sheet,
                       const diagram::Selection& drawn);

}  // namespace halfsplit::view
