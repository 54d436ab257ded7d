#include <catch2/catch.hpp>

#include "ui/view/table.h"

using namespace halfsplit::view;

TEST_CASE("Columns align by characters, not bytes, and lines have no trailing blanks") {
    Table table{{{"what"}, {"volts", Table::Align::right}}, {{"µ", "1"}, {"plain", "12.30"}, {"x", ""}}};
    CHECK(aligned_text(table) == "what   volts\nµ          1\nplain  12.30\nx\n");
}

// RFC 4180: fields with commas, quotes or line breaks are quoted, quotes doubled.
TEST_CASE("CSV quotes what needs it") {
    Table table{{{"a"}, {"b"}}, {{"1,5", "say \"on\""}, {"plain", "two\nlines"}}};
    CHECK(csv_text(table) == "a,b\n\"1,5\",\"say \"\"on\"\"\"\nplain,\"two\nlines\"\n");
}

TEST_CASE("Quantities read as on a workshop meter") {
    CHECK(volts_text(12.345) == "12.35 V");
    CHECK(volts_text(-0.0000001) == "0 mV");
    CHECK(volts_text(0.0452) == "45 mV");
    CHECK(volts_text(0.0994) == "99 mV");
    CHECK(volts_text(0.0996) == "0.10 V");
    CHECK(amperes_text(3.214) == "3.21 A");
    CHECK(amperes_text(0.0452) == "45 mA");
    CHECK(amperes_text(0.00123) == "1.2 mA");
    CHECK(amperes_text(0.0000012) == "1 uA");
    CHECK(amperes_text(1e-9) == "0");
    CHECK(fixed(-0.004, 2) == "0.00");
}
