#pragma once

#include <span>
#include <string>
#include <vector>

#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "ui/view/table.h"

namespace halfsplit::view {

/// Readings in the sheet's CSV form, in their order: columns
/// `state,place,at,against,instrument,unit,measured,complaint`.
Table readings_table(const model::Circuit& circuit, std::span<const diagnosis::FilledRow> readings);

/// A sheet's CSV with what was measured written in; what it does not propose stands at its end.
Table filled_sheet_table(const model::Circuit& circuit, const diagnosis::Sheet& sheet,
                         std::span<const diagnosis::FilledRow> readings);

/// What each row of a sheet looks at, all states one after the other, as who reads it back understands it.
std::vector<diagnosis::Finding> findings_on(const model::Circuit& circuit, const diagnosis::Sheet& sheet);

/// What a reading is written down in: "V", "A"; "" of signs.
std::string plain_unit(const diagnosis::Finding& finding);

}  // namespace halfsplit::view
