#include <catch2/catch.hpp>

#include "engine/base/csv.h"
#include "tests/support/marked.h"

using namespace halfsplit;

namespace {

std::vector<std::vector<std::string>> rows_of(std::string_view text) {
    CsvReader reader(text, "a.csv");
    std::vector<std::vector<std::string>> rows;
    for (CsvRow row; reader.next(row);) {
        rows.emplace_back();
        for (const CsvCell& cell : row.cells) rows.back().push_back(cell.text);
    }
    CHECK(reader.problems().empty());
    return rows;
}

using Rows = std::vector<std::vector<std::string>>;

}  // namespace

TEST_CASE("Cells are read as RFC 4180 says") {
    // RFC 4180 section 2, rules 1 to 7.
    CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(rows_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(rows_of("\"aaa\",\"b\"\"bb\",\"c,c\"") == Rows{{"aaa", "b\"bb", "c,c"}});
}

TEST_CASE("What spreadsheets make of it is read too") {
    CHECK(rows_of("\xEF\xBB\xBF"
                  "a;b\n0,5;x,y\n") == Rows{{"a", "b"}, {"0,5", "x,y"}});
    CHECK(rows_of("a\tb\n1\t2") == Rows{{"a", "b"}, {"1", "2"}});
    CHECK(rows_of("a,b\rc,d\r") == Rows{{"a", "b"}, {"c", "d"}});
    CHECK(rows_of(" a , \"b \" ,c\n") == Rows{{"a", "b ", "c"}});
    CHECK(rows_of("a,b\n\n,\n") == Rows{{"a", "b"}, {""}, {"", ""}});
    CHECK(rows_of("\"a;b\",c\n").front().size() == 2);
    CHECK(rows_of("").empty());
    CHECK(rows_of("a,").front() == std::vector<std::string>{"a", ""});
    CHECK(rows_of("5\" hose,b").front() == std::vector<std::string>{"5\" hose", "b"});
}

TEST_CASE("A cell knows its line, and its column in characters") {
    const std::string text = "a,b\r\n\"x\r\ny\",  \xC3\xA4\xC3\xB6,c\r\n1,2,3";
    CsvReader reader(text, "a.csv");
    CsvRow row;
    REQUIRE(reader.next(row));
    CHECK(row.end_column == 4);
    REQUIRE(reader.next(row));
    CHECK(row.line == 2);
    REQUIRE(row.cells.size() == 3);
    CHECK(row.cells[0].line == 2);
    CHECK(row.cells[0].column == 1);
    CHECK(row.cells[1].line == 3);
    CHECK(row.cells[1].column == 6);
    CHECK(row.cells[2].column == 9);
    CHECK(row.end_column == 10);
    REQUIRE(reader.next(row));
    CHECK(row.cells[2].line == 4);
    CHECK(row.cells[2].column == 5);
    CHECK_FALSE(reader.next(row));
}

TEST_CASE("Quotes that go wrong are an error where they do") {
    for (const char* snippet : {"a,b\n1,«\"2\n3,4\n", "a,b\n1,«\"2\"\"", "a,b\n1,«\"", "a,b\n\"1\"«x,2\n"}) {
        const test::Marked marked = test::unmark(snippet);
        INFO(snippet);
        CsvReader reader(marked.text, "a.csv");
        CsvRow row;
        while (reader.next(row)) {
        }
        REQUIRE(reader.problems().size() == 1);
        CHECK(reader.problems().front().where.file == "a.csv");
        CHECK(reader.problems().front().where.line == marked.line);
        CHECK(reader.problems().front().where.column == marked.column);
    }
}

TEST_CASE("A decimal comma is one where cells are not separated by commas") {
    const CsvReader semicolons("a;b\n", "a.csv");
    CHECK(semicolons.number({"0,25", 1, 1}).value() == 0.25);
    CHECK(semicolons.number({"0.25", 1, 1}).value() == 0.25);
    CHECK_FALSE(semicolons.number({"1.000,5", 1, 1}));
    CHECK_FALSE(semicolons.number({"1,000,5", 1, 1}));
    const CsvReader commas("a,b\n", "a.csv");
    CHECK(commas.number({"1e-3", 1, 1}).value() == 0.001);
    for (const char* wrong : {"0,25", "", "12 %", "nan", "inf", "1e999", "0x10", "+1"}) {
        INFO(wrong);
        CHECK_FALSE(commas.number({wrong, 1, 1}));
    }
}
