#include <catch2/catch.hpp>

#include "engine/diagnosis/plan/bounds.h"
#include "engine/diagnosis/plan/plan.h"
#include "tests/diagnosis/plan/tables.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis::plan;
using test::random_table;
using test::Shape;

namespace {

constexpr double kRounding = 1e-9;

std::vector<Shape> small_shapes() {
    return {{6, 5, 2, true}, {8, 7, 2, false}, {8, 4, 3, false}, {9, 9, 2, true}, {5, 8, 4, false},
            {9, 3, 2, true}, {7, 7, 3, true},  {1, 3, 2, false}, {2, 2, 2, false}};
}

/// Each fault's way through the tree, done test by test, ends at the group no test splits.
void check_ends(const FaultTable& table, const DecisionTree& tree) {
    std::vector<std::vector<int>> ends;
    for (const DecisionTree::Node& node : tree.nodes)
        if (node.test < 0) ends.push_back(node.faults);
    auto groups = ambiguity_groups(table);
    std::ranges::sort(groups);
    std::ranges::sort(ends);
    CHECK(ends == groups);
}

}  // namespace

TEST_CASE("On small random tables the optimum is what trying every tree gives") {
    for (const Shape& shape : small_shapes())
        for (unsigned seed = 0; seed < 60; ++seed) {
            INFO(shape.faults << " faults, " << shape.tests << " tests, seed " << seed);
            const FaultTable table = random_table(shape, seed);
            const Plan plan = make_plan(table, Method::optimal);
            const double least = test::EveryTree(table).least_cost();
            CHECK(plan.proved);
            CHECK(plan.expected_cost == Approx(least).epsilon(kRounding).margin(kRounding));
            CHECK(plan.lower_bound == Approx(least).epsilon(kRounding).margin(kRounding));
            CHECK(expected_cost(table, plan.tree) == plan.expected_cost);
            check_ends(table, plan.tree);
        }
}

TEST_CASE("Bounds, optimum, rollout and one-step rule stand in this order") {
    for (const Shape& shape : {Shape{12, 12, 2, false}, Shape{14, 10, 2, true}, Shape{15, 12, 3, false}})
        for (unsigned seed = 0; seed < 40; ++seed) {
            INFO(shape.faults << " faults, " << shape.tests << " tests, seed " << seed);
            const FaultTable table = random_table(shape, seed);
            const SetBounds bounds = bounds_of(search_space(table));
            const double best = make_plan(table, Method::optimal).expected_cost;
            const Plan rollout = make_plan(table, Method::rollout);
            const Plan one_step = make_plan(table, Method::one_step);
            CHECK(bounds.huffman <= best + kRounding);
            CHECK(bounds.entropy <= best + kRounding);
            CHECK(best <= rollout.expected_cost + kRounding);
            CHECK(rollout.expected_cost <= one_step.expected_cost + kRounding);
            CHECK(one_step.lower_bound == Approx(std::max(bounds.huffman, bounds.entropy)));
            check_ends(table, rollout.tree);
            check_ends(table, one_step.tree);
        }
}

TEST_CASE("A search whose budget ends keeps a tree, and a bound below the optimum") {
    // Tests that show one fault each: every set of faults can come up.
    FaultTable table = random_table({12, 12, 2, false}, 3);
    for (int fault = 0; fault < 12; ++fault) {
        table.faults[at(fault)].prior = 1 + 0.1 * fault;
        for (int test = 0; test < 12; ++test) {
            table.cells[at(12 * fault + test)] = fault == test ? 1 : 0;
            table.tests[at(test)].cost = 1 + test % 5;
        }
    }
    normalise(table);
    const Plan whole = make_plan(table, Method::optimal);
    REQUIRE(whole.proved);
    CHECK(whole.expected_cost == Approx(test::EveryTree(table).least_cost()).epsilon(kRounding));
    double bound_before = 0;
    double cost_before = make_plan(table, Method::one_step).expected_cost;
    for (const int budget : {0, 1, 10, 100}) {
        INFO(budget);
        const Plan cut = make_plan(table, Method::optimal, budget);
        CHECK_FALSE(cut.proved);
        CHECK(cut.expanded <= budget);
        CHECK(cut.lower_bound <= whole.expected_cost + kRounding);
        CHECK(cut.lower_bound >= bound_before);
        CHECK(cut.expected_cost >= whole.expected_cost - kRounding);
        CHECK(cut.expected_cost <= cost_before + kRounding);
        check_ends(table, cut.tree);
        bound_before = cut.lower_bound;
        cost_before = cut.expected_cost;
    }
}

TEST_CASE("A test gains nothing exactly where all that is likely shows the same") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        const SearchSpace space = search_space(random_table({6, 4, 3, false}, seed));
        Splitter splitter(space);
        const ClassSet all = space.all_classes();
        for (const int column : space.all_columns()) {
            const auto parts = splitter.weigh(column, all);
            const auto likely = std::ranges::count_if(parts, [](const auto& part) { return part.prior > 0; });
            const double gain_bits = weighted_entropy_bits(parts);
            CHECK(gain_bits >= 0);
            CHECK((gain_bits > 0) == (likely > 1));
        }
    }
}

TEST_CASE("Tests that tell nothing, dearer twins and a second copy of the faults change nothing") {
    for (unsigned seed = 0; seed < 30; ++seed) {
        INFO(seed);
        const FaultTable table = random_table({8, 6, 2, false}, seed);
        FaultTable padded = table;
        padded.tests.push_back({"nothing", 0, {"always"}});
        padded.tests.push_back({"dear", table.tests[0].cost + 1, {"yes", "no"}});
        padded.cells.clear();
        for (const auto& suffix : {"", " again"})
            for (int fault = 0; fault < 8; ++fault) {
                if (*suffix != '\0')
                    padded.faults.push_back(
                        {table.faults[at(fault)].name + suffix, table.faults[at(fault)].prior});
                for (int test = 0; test < 6; ++test) padded.cells.push_back(table.outcome(fault, test));
                padded.cells.push_back(0);
                padded.cells.push_back(1 - table.outcome(fault, 0));
            }
        normalise(padded);
        CHECK(make_plan(padded, Method::optimal).expected_cost ==
              Approx(make_plan(table, Method::optimal).expected_cost).epsilon(kRounding).margin(kRounding));
    }
}

TEST_CASE("One fault, or none that any test tells apart, needs no test") {
    for (const char* csv : {"fault,prior,t\na,1,x\n", "fault,prior,t\na,1,x\nb,2,x\n"})
        for (const Method method : methods()) {
            const Plan plan = make_plan(test::table_of(csv), method);
            CHECK(plan.expected_cost == 0);
            CHECK(plan.lower_bound == 0);
            CHECK(plan.proved);
            CHECK(plan.tree.nodes.size() == 1);
        }
}

TEST_CASE("Tables whose numbers or sizes make no sense are slips") {
    FaultTable table = test::six_states();
    table.cells.pop_back();
    CHECK_THROWS_AS(make_plan(table, Method::optimal), std::invalid_argument);
    table = test::six_states();
    table.tests[0].cost = -1;
    CHECK_THROWS_AS(make_plan(table, Method::one_step), std::invalid_argument);
    CHECK_THROWS_AS(make_plan(FaultTable{}, Method::one_step), std::invalid_argument);
}

TEST_CASE("The method for a table becomes simpler as the table grows") {
    CHECK(method_for(test::six_states()) == Method::optimal);
    CHECK(method_for(test::run_of_segments(150)) == Method::rollout);
    CHECK(method_for(test::run_of_segments(400)) == Method::one_step);
}
