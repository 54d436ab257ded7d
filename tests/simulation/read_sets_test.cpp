#include "engine/simulation/read_sets.h"

#include <catch2/catch.hpp>

using namespace halfsplit;

TEST_CASE("A script says what is set when, and where it says so") {
    const auto sets = simulation::read_sets(
        "# A drive.\n\n0.5 S1=run\n\t10 speed=50 over 8  # to the town's end\r\n", "drive.txt");
    REQUIRE(sets);
    REQUIRE(sets->size() == 2);
    CHECK((*sets)[0].at_s == 0.5);
    CHECK((*sets)[0].what == "S1");
    CHECK((*sets)[0].to == "run");
    CHECK((*sets)[0].over_s == 0);
    CHECK((*sets)[1].over_s == 8);
    CHECK((*sets)[1].where.line == 4);
    CHECK((*sets)[1].where.column == 2);
}

TEST_CASE("Every line of a script that cannot be read is an error with its place") {
    const auto sets = simulation::read_sets(
        "1,5 S1=run\n-1 S1=run\nS1=run\n2 S1\n2 =run\n2 S1=\n2 S1=run over\n2 S1=run over x\n2 S1=run after "
        "3\n2 "
        "S1=run over 3 more\n2 S1=run\n",
        "drive.txt");
    REQUIRE_FALSE(sets);
    REQUIRE(sets.error().size() == 10);
    for (int line = 1; line <= 10; ++line) {
        CHECK(sets.error()[static_cast<std::size_t>(line - 1)].where.line == line);
        CHECK(sets.error()[static_cast<std::size_t>(line - 1)].where.file == "drive.txt");
    }
}
