#include <catch2/catch.hpp>

#include "engine/base/number.h"
#include "engine/diagnosis/next_test/table_of_tests.h"
#include "engine/diagnosis/plan/plan.h"
#include "tests/diagnosis/suspects/hand_made.h"

using namespace halfsplit;

namespace {

diagnosis::TestNames plain_names() {
    return {[](const diagnosis::Test& test) { return "point " + std::to_string(test.finding); },
            [](const diagnosis::Test&, const diagnosis::Outcome& outcome) {
                return number_text(outcome.low) + " V";
            }};
}

diagnosis::plan::FaultTable table_from(const diagnosis::Dictionary& dictionary,
                                       const diagnosis::Workshop& workshop) {
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    const diagnosis::Hypotheses hypotheses(dictionary, spread, {});
    return diagnosis::table_of_tests(hypotheses, workshop, diagnosis::all_permitted(dictionary),
                                     plain_names());
}

}  // namespace

TEST_CASE("A dictionary becomes a table of the rows and tests that tell something") {
    // Point 1 parts the faults as point 0 does, point 2 tells nothing, and fault 3 is not noticed anywhere.
    const auto dictionary =
        test::dictionary_of({{12, 5, 1, 12}, {0, 2, 1, 12}, {6, 7, 1, 0}, {12, 5, 1, 12}}, {2, 1, 1});
    auto workshop = test::even_workshop(dictionary);
    const auto table = table_from(dictionary, workshop);
    REQUIRE(table.faults.size() == 3);
    CHECK(table.faults[0].name == "none");
    CHECK(table.faults[1].name == "fault 1");
    CHECK(table.faults[2].name == "fault 2");
    // Rates 2 to 1 by hand; what is not noticed has no share.
    CHECK(table.faults[1].prior == Approx(2 * table.faults[2].prior));
    REQUIRE(table.tests.size() == 2);
    CHECK(table.tests[0].name == "point 0");
    CHECK(table.tests[0].outcomes == std::vector<std::string>{"0 V", "6 V", "12 V"});
    CHECK(table.tests[1].name == "point 3");
    CHECK(table.outcome(0, 0) == 2);
    CHECK(table.outcome(1, 0) == 0);
    CHECK(table.outcome(2, 1) == 0);
    CHECK(table.outcome(0, 1) == table.outcome(1, 1));
}

TEST_CASE("Of tests that part the faults alike the cheapest is in the table") {
    const auto dictionary = test::dictionary_of({{12, 5}, {0, 2}});
    auto workshop = test::even_workshop(dictionary);
    workshop.access_min = {8};
    workshop.test_place = {0, -1};
    const auto table = table_from(dictionary, workshop);
    REQUIRE(table.tests.size() == 1);
    CHECK(table.tests[0].name == "point 1");
    CHECK(table.tests[0].cost == Approx(1));
}

TEST_CASE("Outcomes that are called alike stay two outcomes") {
    const auto dictionary = test::dictionary_of({{12}, {11}});
    const auto spread = diagnosis::equal_spread(dictionary, 0.01);
    const diagnosis::Hypotheses hypotheses(dictionary, spread, {});
    const auto workshop = test::even_workshop(dictionary);
    const auto table = diagnosis::table_of_tests(
        hypotheses, workshop, diagnosis::all_permitted(dictionary),
        {[](const diagnosis::Test&) { return std::string("t"); },
         [](const diagnosis::Test&, const diagnosis::Outcome&) { return std::string("same"); }});
    REQUIRE(table.tests.size() == 1);
    CHECK(table.tests[0].outcomes == std::vector<std::string>{"same", "same (2)"});
    CHECK(diagnosis::plan::make_plan(table, diagnosis::plan::Method::optimal).expected_cost == Approx(1));
}
