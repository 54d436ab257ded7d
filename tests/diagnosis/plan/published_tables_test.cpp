#include <catch2/catch.hpp>

#include "engine/diagnosis/plan/bounds.h"
#include "engine/diagnosis/plan/plan.h"
#include "tests/diagnosis/plan/tables.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis::plan;

namespace {

using Groups = std::vector<std::vector<int>>;

// Twelve volts on a ladder of three series resistors S1 to S3 and three shunts P1 to P3, 1 kohm each: the
// voltages at its three nodes, worked out by hand as fractions.
constexpr const char* kLadder =
    "fault,prior,V1,V2,V3\n"
    "ok,1,60/13,24/13,12/13\n"
    "S1 open,1,0,0,0\n"
    "S1 short,1,12,24/5,12/5\n"
    "P1 open,1,15/2,3,3/2\n"
    "P1 short,1,0,0,0\n"
    "S2 open,1,6,0,0\n"
    "S2 short,1,24/7,24/7,12/7\n"
    "P2 open,1,36/7,24/7,12/7\n"
    "P2 short,1,4,0,0\n"
    "S3 open,1,24/5,12/5,0\n"
    "S3 short,1,9/2,3/2,3/2\n"
    "P3 open,1,24/5,12/5,12/5\n"
    "P3 short,1,9/2,3/2,0\n";

}  // namespace

// Pattipati & Alexandridis, IEEE Trans. SMC 20(4):872-887, 1990: the table and its optimum from memory; the
// optimum and the other figures derived by exhaustive dynamic programming.
TEST_CASE("The six states of 1990 cost 2.18 at best and 2.86 by looking one step ahead") {
    const FaultTable table = test::six_states();
    const Plan best = make_plan(table, Method::optimal);
    CHECK(best.expected_cost == Approx(2.18).epsilon(1e-12));
    CHECK(best.lower_bound == Approx(2.18).epsilon(1e-12));
    CHECK(best.proved);
    CHECK(make_plan(table, Method::rollout).expected_cost == Approx(2.18).epsilon(1e-12));
    const Plan greedy = make_plan(table, Method::one_step);
    CHECK(greedy.expected_cost == Approx(2.86).epsilon(1e-12));
    CHECK_FALSE(greedy.proved);
}

TEST_CASE("The six states of 1990 have the bounds that Huffman and entropy give") {
    const SetBounds bounds = bounds_of(search_space(test::six_states()));
    CHECK(bounds.huffman == Approx(1.59).epsilon(1e-12));
    CHECK(bounds.entropy == Approx(1.454873363593605).epsilon(1e-13));
}

TEST_CASE("The tree of 1990 costs what it costs") {
    const FaultTable table = test::six_states();
    // t2; pass: t4 (pass s0, fail: t1: s2, s3); fail: t3 (fail s5, pass: t1: s1, s4).
    DecisionTree tree;
    tree.nodes = {{1, {{0, 1}, {1, 2}}, {}},
                  {3, {{0, 3}, {1, 4}}, {}},
                  {2, {{0, 5}, {1, 6}}, {}},
                  {-1, {}, {0}},
                  {0, {{0, 7}, {1, 8}}, {}},
                  {0, {{0, 9}, {1, 10}}, {}},
                  {-1, {}, {5}},
                  {-1, {}, {2}},
                  {-1, {}, {3}},
                  {-1, {}, {1}},
                  {-1, {}, {4}}};
    CHECK(expected_cost(table, tree) == Approx(2.18).epsilon(1e-12));
    tree.nodes[3].faults = {1};
    CHECK_THROWS_AS(expected_cost(table, tree), std::logic_error);
    tree.nodes[0].branches.pop_back();
    CHECK_THROWS_AS(expected_cost(table, tree), std::logic_error);
}

TEST_CASE("Half-splitting a run of segments costs what Huffman's code of equal letters is long") {
    // Derived: n equal letters take floor(log2 n) + 2 - 2^(floor(log2 n)+1)/n bits on average.
    const std::vector<std::pair<int, double>> best{{4, 2.0},       {7, 2.857143}, {8, 3.0},
                                                   {12, 3.666667}, {20, 4.4},     {32, 5.0}};
    for (const auto& [count, tests] : best) {
        INFO(count);
        const Plan plan = make_plan(test::run_of_segments(count), Method::optimal);
        CHECK(plan.proved);
        CHECK(plan.expected_cost == Approx(tests).epsilon(1e-6));
    }
}

TEST_CASE("Walking a run of segments from one end costs far more than half-splitting") {
    // Derived: (n - 1)(n + 2) / 2n.
    const std::vector<std::pair<int, double>> walking{{4, 2.25},      {7, 3.857143}, {8, 4.375},
                                                      {12, 6.416667}, {20, 10.45},   {32, 16.46875}};
    for (const auto& [count, tests] : walking) {
        INFO(count);
        DecisionTree tree;
        for (int point = 0; point + 1 < count; ++point) {
            tree.nodes.push_back({point, {{0, 2 * point + 1}, {1, 2 * point + 2}}, {}});
            tree.nodes.push_back({-1, {}, {point}});
        }
        tree.nodes.push_back({-1, {}, {count - 1}});
        CHECK(expected_cost(test::run_of_segments(count), tree) == Approx(tests).epsilon(1e-6));
    }
}

TEST_CASE("The voltages at both ends of a ladder, and no other two, tell all there is to tell") {
    // Derived by hand from the fractions: 12 classes of 13 faults.
    const FaultTable table = test::table_of(kLadder);
    CHECK(ambiguity_groups(table).size() == 12);
    CHECK(ambiguity_groups(table, {0, 2}).size() == 12);
    for (const std::vector<int>& fewer : std::vector<std::vector<int>>{{}, {0}, {1}, {2}, {0, 1}, {1, 2}})
        CHECK(ambiguity_groups(table, fewer).size() < 12);
}

TEST_CASE("What no voltage on a ladder tells apart ends together") {
    const FaultTable table = test::table_of(kLadder);
    constexpr int kS1Open = 1;
    constexpr int kP1Short = 4;
    for (const Method method : methods()) {
        const Plan plan = make_plan(table, method);
        int ends = 0;
        for (const DecisionTree::Node& node : plan.tree.nodes) {
            if (node.test >= 0) continue;
            ++ends;
            if (node.faults.size() > 1) CHECK(node.faults == std::vector<int>{kS1Open, kP1Short});
        }
        CHECK(ends == 12);
    }
}

TEST_CASE("Groups stand in the order of their first fault") {
    const FaultTable table = test::table_of("fault,prior,t,u\na,1,x,1\nb,1,y,1\nc,1,x,1\nd,1,y,2\n");
    CHECK(ambiguity_groups(table) == Groups{{0, 2}, {1}, {3}});
    CHECK(ambiguity_groups(table, {}) == Groups{{0, 1, 2, 3}});
}
