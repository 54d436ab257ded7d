#include "engine/diagnosis/plan/read_fault_table.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "engine/base/csv.h"
#include "engine/base/number.h"
#include "engine/xml/limits.h"
#include "engine/xml/unicode.h"

namespace halfsplit::diagnosis::plan {
namespace {

constexpr std::size_t kLeadingCells = 2;  // name and prior
constexpr std::string_view kCostRow = "cost";

/// Spreadsheets write a capital where a cell begins.
bool is_word(std::string_view text, std::string_view word) {
    return std::ranges::equal(
        text, word, [](char a, char b) { return a == b || (a >= 'A' && a <= 'Z' && a - 'A' + 'a' == b); });
}

class TableReader {
  public:
    TableReader(std::string_view text, std::string file) : csv_(text, file), file_(std::move(file)) {}
    tl::expected<FaultTable, Diagnostics> read();

  private:
    bool next_row();
    void read_header();
    void read_costs();
    void read_fault();
    void read_outcomes();
    void check_length();
    void check_sizes();
    void check_one_line(const CsvCell& cell, std::string_view what);
    void check_name(const CsvCell& cell, std::string_view what, std::unordered_map<std::string, int>& lines);
    double number_of(const CsvCell& cell, std::string_view what, double high);
    void add(const CsvCell& cell, std::string message) { add(cell.line, cell.column, std::move(message)); }
    void add(int line, int column, std::string message);
    bool goes_on() const { return problems_.size() < xml::kMaxErrors && !too_large_; }
    Diagnostics all_problems() const;

    CsvReader csv_;
    std::string file_;
    CsvRow row_;
    FaultTable table_;
    std::vector<std::unordered_map<std::string, int>> outcomes_;  ///< of each test, text to index
    std::unordered_map<std::string, int> fault_lines_;
    Diagnostics problems_;
    bool too_large_ = false;
};

tl::expected<FaultTable, Diagnostics> TableReader::read() {
    if (!next_row())
        return tl::unexpected(Diagnostics{
            {{file_, 1, 1}, "the table is empty; a header 'fault,prior,' and the tests' names is expected"}});
    read_header();
    bool is_first = true;
    while (goes_on() && next_row()) {
        const bool is_cost_row = is_word(row_.cells.front().text, kCostRow);
        if (is_cost_row && is_first)
            read_costs();
        else if (is_cost_row)
            add(row_.cells.front(), "a row of costs stands here; one is expected, right behind the header");
        else
            read_fault();
        is_first = false;
    }
    if (goes_on() && table_.faults.empty())
        add(row_.line, 1, "the table has no faults; behind the header a row for each fault is expected");
    else if (problems_.empty() && csv_.problems().empty() && !normalise(table_))
        add(1, 1, "all priors are 0; at least one fault with a prior above 0 is expected");
    const Diagnostics problems = all_problems();
    if (!problems.empty()) return tl::unexpected(problems);
    return std::move(table_);
}

bool TableReader::next_row() {
    while (csv_.next(row_))
        if (!row_.is_empty()) return true;
    return false;
}

void TableReader::read_header() {
    if (!is_word(row_.cells.front().text, "fault"))
        add(row_.cells.front(),
            "the header begins with '" + row_.cells.front().text + "'; 'fault' is expected");
    if (row_.cells.size() < kLeadingCells || !is_word(row_.cells[1].text, "prior"))
        add(row_.cells.size() < kLeadingCells ? row_.cells.front() : row_.cells[1],
            "the header's second cell is not 'prior'; it is expected");
    if (row_.cells.size() <= kLeadingCells)
        add(row_.line, row_.end_column, "the table has no tests; their names are expected behind 'prior'");
    std::unordered_map<std::string, int> columns;
    for (std::size_t cell = kLeadingCells; cell < row_.cells.size() && goes_on(); ++cell) {
        check_name(row_.cells[cell], "test", columns);
        table_.tests.push_back({row_.cells[cell].text, 1, {}});
        check_sizes();
    }
    outcomes_.resize(table_.tests.size());
}

void TableReader::read_costs() {
    check_length();
    if (row_.cells.size() > 1 && !row_.cells[1].text.empty())
        add(row_.cells[1], "a cost has no prior; an empty cell is expected");
    const std::size_t count = std::min(table_.tests.size() + kLeadingCells, row_.cells.size());
    for (std::size_t cell = kLeadingCells; cell < count; ++cell)
        table_.tests[cell - kLeadingCells].cost = number_of(row_.cells[cell], "cost", kMaxCost);
}

void TableReader::read_fault() {
    check_length();
    check_name(row_.cells.front(), "fault", fault_lines_);
    constexpr double kAnyPrior = 1e300;  // rates will do, they are normalised
    const double prior = row_.cells.size() > 1 ? number_of(row_.cells[1], "prior", kAnyPrior) : 0;
    table_.faults.push_back({row_.cells.front().text, prior});
    check_sizes();
    if (goes_on()) read_outcomes();
}

void TableReader::read_outcomes() {
    const std::size_t first = table_.cells.size();
    table_.cells.resize(first + table_.tests.size());
    const std::size_t count = std::min(table_.tests.size() + kLeadingCells, row_.cells.size());
    for (std::size_t cell = kLeadingCells; cell < count; ++cell) {
        const std::size_t test = cell - kLeadingCells;
        const std::string& text = row_.cells[cell].text;
        if (text.empty())
            add(row_.cells[cell], "the outcome is empty; what '" + table_.tests[test].name +
                                      "' shows with this fault is expected, '-' if that is nothing");
        const auto [known, is_new] =
            outcomes_[test].try_emplace(text, static_cast<int>(table_.tests[test].outcomes.size()));
        if (is_new) {
            check_one_line(row_.cells[cell], "outcome");
            table_.tests[test].outcomes.push_back(text);
        }
        table_.cells[first + test] = known->second;
    }
}

void TableReader::check_length() {
    const std::size_t expected = table_.tests.size() + kLeadingCells;
    if (row_.cells.size() == expected) return;
    const std::string message = "the row has " + std::to_string(row_.cells.size()) + " cells; " +
                                std::to_string(expected) + " are expected, as in the header";
    if (row_.cells.size() < expected)
        add(row_.line, row_.end_column, message);
    else
        add(row_.cells[expected], message);
}

void TableReader::check_sizes() {
    too_large_ = table_.tests.size() > kMaxTests || table_.faults.size() > kMaxFaults ||
                 table_.tests.size() * table_.faults.size() > kMaxCells;
    if (too_large_)
        problems_.push_back({{file_, row_.line, 1},
                             "the table is too large; at most " + std::to_string(kMaxFaults) + " faults, " +
                                 std::to_string(kMaxTests) + " tests and " + std::to_string(kMaxCells) +
                                 " cells are expected"});
}

void TableReader::check_one_line(const CsvCell& cell, std::string_view what) {
    if (cell.text.find_first_of("\r\n\t") != std::string::npos)
        add(cell, "the " + std::string(what) +
                      "'s text is broken by a tab or line end; text in one line is expected");
}

void TableReader::check_name(const CsvCell& cell, std::string_view what,
                             std::unordered_map<std::string, int>& lines) {
    if (cell.text.empty()) {
        add(cell, "a " + std::string(what) + " has no name; one is expected");
        return;
    }
    check_one_line(cell, what);
    const auto [known, is_new] = lines.try_emplace(cell.text, cell.line);
    if (!is_new)
        add(cell, "a second " + std::string(what) + " is called '" + cell.text + "', as in line " +
                      std::to_string(known->second) + "; another name is expected");
}

double TableReader::number_of(const CsvCell& cell, std::string_view what, double high) {
    const auto number = csv_.number(cell);
    if (!number) {
        add(cell, "this " + std::string(what) + " is wrong: " + number.error());
        return 0;
    }
    if (*number >= 0 && *number <= high) return *number;
    add(cell, "the " + std::string(what) + " " + cell.text + " is out of range; 0 to " + number_text(high) +
                  " is expected");
    return 0;
}

void TableReader::add(int line, int column, std::string message) {
    if (goes_on()) problems_.push_back({{file_, line, column}, std::move(message)});
}

Diagnostics TableReader::all_problems() const {
    Diagnostics all = csv_.problems();
    all.insert(all.end(), problems_.begin(), problems_.end());
    std::ranges::stable_sort(all, [](const Diagnostic& a, const Diagnostic& b) {
        return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
    });
    if (all.size() > xml::kMaxErrors) all.resize(xml::kMaxErrors);
    return all;
}

/// Where `offset` stands, in lines and columns.
Location place_of(std::string_view text, std::size_t offset, const std::string& file) {
    const std::string_view before = text.substr(0, offset);
    const std::size_t line_begin = before.find_last_of('\n') + 1;  // npos + 1 is 0
    const auto column = std::ranges::count_if(
        before.substr(line_begin), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return {file, static_cast<int>(std::ranges::count(before, '\n')) + 1, static_cast<int>(column) + 1};
}

}  // namespace

tl::expected<FaultTable, Diagnostics> read_fault_table(std::string_view text, const std::string& file) {
    if (text.size() > xml::kMaxBytes)
        return tl::unexpected(Diagnostics{{{file, 0, 0},
                                           "the file is too large; at most " +
                                               std::to_string(xml::kMaxBytes >> 20U) + " MiB are expected"}});
    if (const auto wrong = xml::find_encoding_error(text))
        return tl::unexpected(Diagnostics{
            {place_of(text, wrong->offset, file), "what stands here is no text; CSV in UTF-8 is expected"}});
    return TableReader(text, file).read();
}

}  // namespace halfsplit::diagnosis::plan
