#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/diagnosis/dictionary/finding.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// What somebody wrote into a sheet.
struct FilledRow {
    int state = 0;              ///< index into the circuit
    Finding finding;            ///< what was looked at, as a dictionary has it
    std::string instrument;     ///< id
    double value = 0;           ///< V or A as shown; of a sign, the number of the Sign
    int line = 0;               ///< in the file
    bool is_complaint = false;  ///< the customer complained of it, and it was seen in the workshop too
};

/// Rows beyond are refused: some hundred times what one vehicle's sheet has.
inline constexpr int kMaxFilledRows = 1'000'000;

/// Reads a sheet's CSV (engine/base/csv.h: also what a spreadsheet makes of it) back, its column `measured`
/// filled in. Needed are the columns `state`, `at` and `measured`; `against` (else the body), `instrument`
/// (else the voltmeter, or looking and listening where `at` is a part), `unit` and `complaint` ("yes" where
/// the customer complained of it) count where they are there, others do not. Rows with nothing measured are
/// passed over. Points need not be of those the sheet proposes: any of the circuit will do, and any two for a
/// drop. Voltmeter, fuse millivolts, clamp and ammeters are understood, each as the Finding that a dictionary
/// predicts: a fuse's millivolts between its two test tips.
///
/// Every error is collected, the first hundred returned, each with line and column.
tl::expected<std::vector<FilledRow>, Diagnostics> read_readings(const model::Circuit& circuit,
                                                                std::string_view text,
                                                                const std::string& file);

}  // namespace halfsplit::diagnosis
