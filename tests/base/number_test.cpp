#include "engine/base/number.h"

#include <clocale>

#include <catch2/catch.hpp>

using Catch::Contains;
using halfsplit::number_text;
using halfsplit::read_number;
using halfsplit::read_whole_number;

TEST_CASE("A number is the whole text") {
    CHECK(read_number("12").value() == 12.0);
    CHECK(read_number("-0.5").value() == -0.5);
    CHECK(read_number(".5").value() == 0.5);
    CHECK(read_number("1e-3").value() == 0.001);
    CHECK(read_number("2.5E+2").value() == 250.0);
    for (const char* text :
         {"12 k", "12k", " 1", "1 ", "1\n", "1.2.3", "1e", "e5", "-", ".", "--1", "1-2", "1_000", "½"})
        CHECK_FALSE(read_number(text));
}

TEST_CASE("A refused number says what was expected") {
    CHECK_THAT(read_number("1,5").error(), Contains("a decimal point is expected"));
    CHECK_THAT(read_number("").error(), Contains("a number is expected"));
    CHECK_THAT(read_number(" 1").error(), Contains("without any spaces"));
    CHECK_THAT(read_number("+1").error(), Contains("no plus sign"));
    CHECK_THAT(read_number("0x10").error(), Contains("a decimal number is expected"));
    CHECK_THAT(read_number("15A").error(), Contains("its unit is in the attribute's name"));
    CHECK_THAT(read_number("many").error(), Contains("such as 12 or 0.5"));
}

TEST_CASE("Only finite numbers are numbers") {
    for (const char* text : {"nan", "NaN", "inf", "INF", "-inf", "infinity", "1e999", "-1e999"})
        CHECK_FALSE(read_number(text));
    CHECK_THAT(read_number("1e999").error(), Contains("beyond what a number can hold"));
}

TEST_CASE("The locale has no say in what a number is") {
    const std::string before = std::setlocale(LC_NUMERIC, nullptr);
    const bool comma_locale = std::setlocale(LC_NUMERIC, "de_DE.UTF-8") != nullptr;
    INFO("German locale installed: " << comma_locale);
    CHECK(read_number("1.5").value() == 1.5);
    CHECK_FALSE(read_number("1,5"));
    CHECK(number_text(1.5) == "1.5");
    std::setlocale(LC_NUMERIC, before.c_str());
}

TEST_CASE("A whole number stays in its range") {
    CHECK(read_whole_number("6", 1, 10).value() == 6);
    CHECK_THAT(read_whole_number("6.5", 1, 10).error(), Contains("not a whole number"));
    CHECK_THAT(read_whole_number("11", 1, 10).error(), Contains("1 to 10 is expected"));
    CHECK_THAT(read_whole_number("1e300", 1, 10).error(), Contains("out of range"));
}

TEST_CASE("A number's text reads back as the same number") {
    for (const double number : {0.1, 12.0, 1e-9, 1.0 / 3.0, 1e7, -40.0})
        CHECK(read_number(number_text(number)).value() == number);
    CHECK(number_text(12) == "12");
    CHECK(number_text(0.1) == "0.1");
    CHECK(number_text(1e-4) == "0.0001");
    CHECK(number_text(1e7) == "10000000");
    CHECK(number_text(1e12) == "1e+12");
}
