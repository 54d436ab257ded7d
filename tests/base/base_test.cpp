#include <catch2/catch.hpp>

#include "engine/base/diagnostic.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"

using namespace halfsplit;

TEST_CASE("Only a whole, finite number with a decimal point is a number") {
    CHECK(parse_number("12") == 12.0);
    CHECK(parse_number("-0.5") == -0.5);
    CHECK(parse_number("1.5e-3") == 0.0015);
    for (const char* text :
         {"", "1,5", "12 k", " 1", "1 ", "abc", "nan", "inf", "1e999", "0x10", "+1", "1.2.3", "--1"}) {
        INFO(text);
        CHECK_FALSE(parse_number(text));
    }
}

TEST_CASE("A number is written so that it reads back the same") {
    for (const double value : {0.1, 1.0 / 3, 1e-9, 123456.789, -5.0})
        CHECK(parse_number(number_text(value)) == value);
    CHECK(number_text(0.05) == "0.05");
}

TEST_CASE("A slip of the pen finds the name that was meant, a different word does not") {
    const std::vector<std::string> known{"relay", "resistor", "switch"};
    CHECK(nearest_name("realy", known) == "relay");
    CHECK(nearest_name("resitor", known) == "resistor");
    CHECK(nearest_name("battery", known).empty());
    CHECK(did_you_mean("swich", known) == " (did you mean 'switch'?)");
    CHECK(one_of(known) == "relay, resistor or switch");
}

TEST_CASE("A diagnostic names file, line and column where they are known") {
    CHECK(to_text({{"a.xml", 3, 7}, "wrong"}) == "a.xml:3:7: error: wrong");
    CHECK(to_text({{"a.xml", 0, 0}, "wrong"}) == "a.xml: error: wrong");
    CHECK(to_text({{}, "wrong"}) == "error: wrong");
}
