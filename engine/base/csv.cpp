#include "engine/base/csv.h"

#include <algorithm>
#include <utility>

#include "engine/base/number.h"

namespace halfsplit {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kSeparators = ",;\t";
constexpr std::string_view kBlanks = " \t";

bool is_line_end(char c) {
    return c == '\n' || c == '\r';
}

/// The first separator outside quotes; a comma where there is none in the first line that is not blank.
char separator_of(std::string_view text) {
    text.remove_prefix(std::min(text.find_first_not_of("\r\n"), text.size()));
    bool quoted = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        if (is_line_end(c)) break;
        if (kSeparators.find(c) != std::string_view::npos) return c;
    }
    return ',';
}

}  // namespace

bool CsvRow::is_empty() const {
    return std::ranges::all_of(cells, [](const CsvCell& cell) { return cell.text.empty(); });
}

CsvReader::CsvReader(std::string_view text, std::string file) : text_(text), file_(std::move(file)) {
    if (text_.starts_with(kByteOrderMark)) text_.remove_prefix(kByteOrderMark.size());
    separator_ = separator_of(text_);
}

bool CsvReader::next(CsvRow& row) {
    row.cells.clear();
    if (at_end()) return false;
    row.line = line_;
    row.cells.push_back(take_cell());
    while (peek() == separator_) {
        advance();
        row.cells.push_back(take_cell());
    }
    row.end_column = column_;
    take_line_end();
    return true;
}

bool CsvReader::at_cell_end() const {
    return at_end() || peek() == separator_ || is_line_end(peek());
}

void CsvReader::advance() {
    const char c = text_[offset_++];
    const bool ends_line = c == '\n' || (c == '\r' && peek() != '\n');
    if (ends_line) {
        ++line_;
        column_ = 1;
    } else if ((static_cast<unsigned char>(peek()) & 0xC0U) != 0x80U || at_end()) {
        ++column_;  // of UTF-8, when a character's last byte is passed
    }
}

void CsvReader::take_line_end() {
    if (peek() == '\r') advance();
    if (peek() == '\n') advance();
}

CsvCell CsvReader::take_cell() {
    while (!at_cell_end() && kBlanks.find(peek()) != std::string_view::npos) advance();
    CsvCell cell{{}, line_, column_};
    if (peek() == '"')
        take_quoted(cell);
    else
        take_plain(cell);
    return cell;
}

void CsvReader::take_quoted(CsvCell& cell) {
    advance();
    bool is_closed = false;
    while (!at_end()) {
        const char c = peek();
        advance();
        is_closed = c == '"' && peek() != '"';
        if (is_closed) break;
        if (c == '"') advance();
        cell.text += c;
    }
    while (!at_cell_end() && kBlanks.find(peek()) != std::string_view::npos) advance();
    if (!is_closed) {
        cell.text.resize(
            std::min(cell.text.find_first_of("\r\n"), cell.text.size()));  // the rest was not meant
        problems_.push_back({{file_, cell.line, cell.column},
                             "the quotes that open here are not closed; a second '\"' is expected"});
    } else if (!at_cell_end()) {
        problems_.push_back(
            {{file_, line_, column_},
             "text stands behind the closing quotes; a separator or the line's end is expected "
             "(quotes within quotes are doubled)"});
        while (!at_cell_end()) advance();
    }
}

void CsvReader::take_plain(CsvCell& cell) {
    const std::size_t begin = offset_;
    while (!at_cell_end()) advance();
    const std::string_view text = text_.substr(begin, offset_ - begin);
    cell.text = text.substr(0, text.find_last_not_of(kBlanks) + 1);
}

tl::expected<double, std::string> CsvReader::number(const CsvCell& cell) const {
    std::string text = cell.text;
    const bool has_decimal_comma =
        separator_ != ',' && std::ranges::count(text, ',') == 1 && text.find('.') == std::string::npos;
    if (has_decimal_comma) text[text.find(',')] = '.';
    const auto number = read_number(text);
    if (number) return *number;
    if (text.empty()) return tl::unexpected(std::string("the cell is empty; a number is expected"));
    return tl::unexpected("'" + cell.text +
                          "' is not a number we can read; one such as 12 or 0.5 is expected");
}

}  // namespace halfsplit
