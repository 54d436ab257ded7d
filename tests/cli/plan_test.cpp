#include <catch2/catch.hpp>

#include "tests/cli/program.h"

using halfsplit::test::contains;
using halfsplit::test::run_program;

TEST_CASE("The cheapest order of tests is printed as one reads it at the vehicle") {
    // Pattipati & Alexandridis, IEEE Trans. SMC 20(4):872-887, 1990 (from memory): 2.18 and this tree.
    const auto ran = run_program("plan tests/data/six-states.csv");
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out ==
          "test t2\n"
          "  0: test t4\n"
          "    0: s0 (70 %)\n"
          "    1: test t1\n"
          "      0: s2 (2 %)\n"
          "      1: s3 (10 %)\n"
          "  1: test t3\n"
          "    0: test t1\n"
          "      0: s1 (1 %)\n"
          "      1: s4 (5 %)\n"
          "    1: s5 (12 %)\n"
          "\n"
          "Expected cost 2.18, by the method optimal. No order of tests costs less.\n");
}

TEST_CASE("A simpler method says what it costs and what no order can beat") {
    // The same source; Huffman's bound derived.
    const auto ran = run_program("plan tests/data/six-states.csv --method one-step");
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Expected cost 2.86, by the method one-step."));
    CHECK(contains(ran.out, "none costs less than 1.59."));
    CHECK(contains(run_program("plan tests/data/six-states.csv --method rollout").out, "Expected cost 2.18"));
}

TEST_CASE("Faults that no test tells apart are said in a sentence and listed in JSON") {
    // Derived by hand: with S1 open as with P1 short all three voltages of the ladder are 0.
    const auto text = run_program("plan tests/data/ladder.csv");
    CHECK(text.status == 0);
    CHECK(contains(text.out, "No test here tells S1 open and P1 short apart.\n"));
    CHECK(contains(text.out, "S1 open or P1 short (15.38 %)"));
    const auto json = run_program("plan tests/data/ladder.csv --format json");
    CHECK(json.status == 0);
    for (const char* part : {"\"expected_cost\": ", "\"tree\": {", "\"method\": \"optimal\"",
                             "\"lower_bound\": ", "\"groups\": [", "\"S1 open\""})
        CHECK(contains(json.out, part));
    CHECK(json.out.front() == '{');
    CHECK(json.out.substr(json.out.size() - 2) == "}\n");
}

TEST_CASE("A table with errors is refused with status 1 and all of them") {
    const auto ran = run_program("plan tests/data/broken/fault-table.csv");
    CHECK(ran.status == 1);
    CHECK(ran.out.empty());
    for (const char* part : {"tests/data/broken/fault-table.csv:1:15: error: ", ":3:1: error: ",
                             ":3:3: error: ", ":3:7: error: "})
        CHECK(contains(ran.err, part));
    CHECK(run_program("plan tests/data/none.csv").status == 1);
    CHECK(run_program("plan tests/data").status == 1);
    CHECK(run_program("plan circuits/horn.circuit.xml").status == 1);
}

TEST_CASE("A wrong command line of plan is refused with status 2") {
    CHECK(run_program("plan").status == 2);
    CHECK(run_program("plan tests/data/six-states.csv --method best").status == 2);
    CHECK(run_program("plan tests/data/six-states.csv --format csv").status == 2);
    CHECK(run_program("plan --help").status == 0);
}
