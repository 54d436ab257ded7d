#include "engine/practice/results/class_table.h"

#include <catch2/catch.hpp>

using namespace halfsplit::practice;

namespace {

Job job(const std::string& id, const std::string& skill, int level, double best_min) {
    return {"content of " + id, id, id, "Horns", skill, level, best_min, 2 * best_min};
}

Result result(const std::string& who, const std::string& job_id, bool is_right, double minutes) {
    return {who + job_id + std::to_string(minutes),
            who,
            "content of " + job_id,
            "2026-01-01T00:00:00Z",
            true,
            is_right,
            minutes,
            4,
            1,
            2,
            0};
}

ClassResults small_class() {
    return {{job("a", "shorts", 1, 10), job("b", "shorts", 2, 20), job("c", "bad grounds", 1, 10),
             job("d", "bad grounds", 2, 10)},
            {result("Ana", "a", true, 10), result("Ana", "b", true, 60), result("Ana", "c", false, 5),
             result("Ben", "c", true, 30)}};
}

}  // namespace

// Worked by hand: Ana was right in 2 of 3; her right ones took 1 and 3 times the best minutes, median 2.
TEST_CASE("The class table counts what was handed back") {
    ClassResults results = small_class();
    results.results.push_back(result("Ana", "d", false, 5));
    results.results.back().is_over = false;
    const auto table = class_table(results);
    REQUIRE(table.size() == 2);
    CHECK(table[0].who == "Ana");
    CHECK(table[0].sessions == 3);
    CHECK(table[0].right == 2);
    CHECK(table[0].slowness == Approx(2));
    CHECK(table[0].slips == Approx(2));
    CHECK(table[1].right_share() == 1);
    CHECK(table[1].slowness == Approx(3));
}

TEST_CASE("Skills are told apart") {
    const auto table = skill_table(small_class());
    REQUIRE(table.size() == 3);
    CHECK(table[0].skill == "bad grounds");
    CHECK(table[0].right == 0);
    CHECK(table[1].skill == "shorts");
    CHECK(table[1].right == 2);
}

TEST_CASE("What went wrong is practised next, at the level that was not reached yet") {
    const auto next = practise_next(small_class(), "Ana");
    REQUIRE(next);
    CHECK(next->skill == "bad grounds");
    CHECK(next->level == 1);
    CHECK(next->jobs == std::vector<std::string>{"c", "d"});
    CHECK(next->why == "0 of 1 were right");
}

TEST_CASE("Where all went well, something new is next") {
    const auto next = practise_next(small_class(), "Ben");
    REQUIRE(next);
    CHECK(next->skill == "shorts");
    CHECK(next->jobs == std::vector<std::string>{"a", "b"});
    CHECK_FALSE(practise_next(small_class(), "Cem"));
}
