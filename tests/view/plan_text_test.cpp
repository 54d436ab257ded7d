#include <catch2/catch.hpp>

#include "engine/diagnosis/plan/read_fault_table.h"
#include "ui/view/plan_text.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis::plan;

namespace {

FaultTable table_of(const char* csv) {
    return read_fault_table(csv, "a.csv").value();
}

}  // namespace

TEST_CASE("A plan shows what tests cost where they differ") {
    // By hand: the cheap test leaves nothing to the dear one but a and b: 1 + 0.5 x 2.5.
    const FaultTable table =
        table_of("fault,prior,look,measure\ncost,,1,2.5\na,1,dark,0\nb,1,dark,12\nc,2,lit,12\n");
    CHECK(view::plan_text(table, make_plan(table, Method::optimal)) ==
          "test look (cost 1)\n"
          "  dark: test measure (cost 2.5)\n"
          "    0: a (25 %)\n"
          "    12: b (25 %)\n"
          "  lit: c (50 %)\n"
          "\n"
          "Expected cost 2.25, by the method optimal. No order of tests costs less.\n");
}

TEST_CASE("A plan without a test says what is left") {
    const FaultTable table = table_of("fault,prior,t\na,1,x\nb,1,x\nc,2,x\n");
    CHECK(view::plan_text(table, make_plan(table, Method::optimal)) ==
          "a, b or c (100 %)\n"
          "\n"
          "Expected cost 0, by the method optimal. No order of tests costs less.\n"
          "No test here tells a, b and c apart.\n");
}

TEST_CASE("A plan in JSON nests what comes next under each outcome") {
    const FaultTable table = table_of("fault,prior,t\na,1,x\nb,3,y\n");
    CHECK(view::plan_json(table, make_plan(table, Method::one_step)) == R"({
  "expected_cost": 1.0,
  "tree": {
    "test": "t",
    "cost": 1.0,
    "outcomes": {
      "x": {
        "faults": [
          "a"
        ],
        "probability": 0.25
      },
      "y": {
        "faults": [
          "b"
        ],
        "probability": 0.75
      }
    }
  },
  "method": "one-step",
  "lower_bound": 1.0,
  "proved": true,
  "groups": []
})");
}

TEST_CASE("Progress says how far the work is") {
    CHECK(view::progress_text({Method::optimal, 512, 2000, 2.1, 2.25}) ==
          "optimal: 512 of at most 2000 sets of faults looked at, expected cost between 2.1 and 2.25");
    CHECK(view::progress_text({Method::rollout, 3, 40, 0, 0}) == "rollout: 3 of 40 faults have their place");
}
