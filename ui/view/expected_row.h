#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/diagnosis/next_test/consultation.h"
#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/diagnosis/sheet/sheet.h"
#include "ui/view/sheet_text.h"

namespace halfsplit::view {

/// One thing that somebody looks at or measures in a state: what should be found there, and what may be
/// written beside it.
struct ExpectedRow {
    int state = 0;  ///< index into the circuit
    diagnosis::Finding finding;
    std::string instrument;             ///< id
    int part = -1;                      ///< it belongs to: index into the circuit
    std::vector<int> wires;             ///< indices
    SheetCells cells;                   ///< V or A as its unit says
    bool is_predicted = true;           ///< false: nobody has worked out yet what should be found
    bool has_limits = false;            ///< of voltages and currents: cells.low_v to cells.high_v
    std::optional<double> number = {};  ///< expected, as a reading has it; nullopt: pulses or floats
    std::string choices = {};           ///< of signs: "lit, dim or dark"
    std::string others = {};            ///< of signs: what it should not be, "dim or dark"
};

/// Those of a state's sheet, in its order.
std::vector<ExpectedRow> expected_rows(const model::Circuit& circuit, const diagnosis::StateSheet& sheet);

/// One that no sheet proposes, by what is predicted of the sound vehicle; the limits are those of 99 of 100.
/// Not predicted where the dictionary does not hold it, or where there is none.
ExpectedRow expected_row(const model::Circuit& circuit, const diagnosis::Consultation* consultation,
                         int state, const diagnosis::Finding& finding);

/// What somebody wrote beside a row, in the row's unit where none stands with it: "12.3", "12,3 V", "dark".
/// The error says what was expected.
tl::expected<diagnosis::FilledRow, std::string> read_entry(const model::Circuit& circuit,
                                                           const ExpectedRow& row, const std::string& text);

/// The value as it is written beside that row: "12.31", "dark".
std::string entry_text(const model::Circuit& circuit, const ExpectedRow& row, double value);

/// How a reading stands to what is expected.
enum class Fit { as_expected, too_low, too_high, differs, not_judged };
Fit fit_of(const ExpectedRow& row, double value);
std::string_view fit_words(Fit fit);  ///< "too low"
std::string_view fit_sign(Fit fit);   ///< an arrow, a tick; "" where nothing is judged

}  // namespace halfsplit::view
