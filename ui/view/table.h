#pragma once

#include <string>
#include <vector>

namespace halfsplit::view {

/// Rows of text cells under headings, to be aligned for a terminal or written as CSV.
struct Table {
    enum class Align { left, right };
    struct Column {
        std::string heading;
        Align align = Align::left;
    };
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;  ///< as many cells as columns
};

/// Aligned by the number of characters (UTF-8 code points), two spaces between columns, nothing behind the
/// last.
std::string aligned_text(const Table& table, const std::string& indent = "");

/// RFC 4180: comma, CRLF-free lines, quotes where needed.
std::string csv_text(const Table& table);
std::string csv_cell(const std::string& text);

/// A number with a fixed count of decimals and no "-0.00".
std::string fixed(double value, int decimals);

/// Volts as a workshop reads them: millivolts below 0.1 V, else two decimals: "12.34 V", "45 mV".
std::string volts_text(double volts);

/// Amperes likewise: "3.21 A", "45 mA", "0".
std::string amperes_text(double amperes);

}  // namespace halfsplit::view
