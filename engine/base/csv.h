#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"

namespace halfsplit {

// Tables as spreadsheets save them: RFC 4180, and what they make of it where the comma is a decimal sign. Our
// own, because no library at hand tells the line and column a cell stands at.

/// One cell: its text without quotes (spaces around a cell without quotes do not count), and the line and
/// column of its first character.
struct CsvCell {
    std::string text;
    int line = 0;
    int column = 0;
};

struct CsvRow {
    std::vector<CsvCell> cells;
    int line = 0;
    int end_column = 0;  ///< where the row ends: the column after its last character

    bool is_empty() const;  ///< a blank line, or separators alone
};

/// Gives one row after the other. Cells are separated by what separates them in the first line: a comma, a
/// semicolon or a tab. Lines end in LF, CR LF or CR; a byte-order mark is passed over; line ends may stand
/// within quotes, a quote within quotes is doubled.
class CsvReader {
  public:
    /// `text` must outlive the reader.
    CsvReader(std::string_view text, std::string file);

    /// The next row, blank ones too; false at the end. The row's memory is used again.
    bool next(CsvRow& row);

    /// What is wrong with the quotes so far.
    const Diagnostics& problems() const { return problems_; }

    /// The number in a cell; with a decimal comma too, where cells are not separated by commas. The error
    /// says what is wrong and what was expected.
    tl::expected<double, std::string> number(const CsvCell& cell) const;

  private:
    bool at_end() const { return offset_ == text_.size(); }
    char peek() const { return at_end() ? '\0' : text_[offset_]; }
    bool at_cell_end() const;
    void advance();
    void take_line_end();
    CsvCell take_cell();
    void take_quoted(CsvCell& cell);
    void take_plain(CsvCell& cell);

    std::string_view text_;
    std::string file_;
    char separator_ = ',';
    std::size_t offset_ = 0;
    int line_ = 1;
    int column_ = 1;
    Diagnostics problems_;
};

}  // namespace halfsplit
