#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "engine/diagnosis/plan/repair_order.h"

using namespace halfsplit::diagnosis::plan;

TEST_CASE("Three causes are looked at in the order and at the cost worked out by hand") {
    // Derived: all six orders.
    const std::vector<Cause> causes{{0.5, 10, 50}, {0.3, 2, 20}, {0.2, 5, 30}};
    const std::vector<std::pair<std::vector<int>, double>> orders{{{0, 1, 2}, 49.0}, {{0, 2, 1}, 50.1},
                                                                  {{1, 0, 2}, 47.0}, {{1, 2, 0}, 47.5},
                                                                  {{2, 0, 1}, 50.6}, {{2, 1, 0}, 48.6}};
    for (const auto& [order, cost] : orders) CHECK(expected_repair_cost(causes, order) == Approx(cost));
    const RepairOrder best = best_repair_order(causes);
    CHECK(best.order == std::vector<int>{1, 0, 2});
    CHECK(best.expected_cost == Approx(47.0));
}

TEST_CASE("Of two causes the first is looked at first exactly if it is likelier per cost") {
    // Textbook exercise: p/C1 >= (1-p)/C2; what repairing costs cancels.
    for (const double p : {0.1, 0.3, 0.5, 0.7, 0.9})
        for (const double cost : {1.0, 3.0, 9.0})
            for (const double repair : {0.0, 100.0}) {
                const std::vector<Cause> causes{{p, cost, repair}, {1 - p, 3, 10}};
                const bool first = p / cost >= (1 - p) / 3;
                CHECK(best_repair_order(causes).order.front() == (first ? 0 : 1));
            }
}

TEST_CASE("The order by probability per cost beats all others") {
    // Brute force over all orders.
    std::mt19937 generator(11);
    std::uniform_real_distribution<double> amount(0, 10);
    for (int round = 0; round < 100; ++round) {
        std::vector<Cause> causes;
        for (int i = 0; i < 6; ++i)
            causes.push_back(
                {i == 0 ? 0 : amount(generator), i == 1 ? 0 : amount(generator), amount(generator)});
        std::vector<int> order{0, 1, 2, 3, 4, 5};
        double least = expected_repair_cost(causes, order);
        while (std::ranges::next_permutation(order).found)
            least = std::min(least, expected_repair_cost(causes, order));
        CHECK(best_repair_order(causes).expected_cost == Approx(least).epsilon(1e-12));
    }
}

TEST_CASE("A likely cause that is cheap to repair is repaired without looking") {
    // Derived: looking costs 10 + 0.9 x 20 = 28, repairing 20.
    CHECK(repairing_beats_looking({0.9, 10, 20}));
    CHECK_FALSE(repairing_beats_looking({0.1, 10, 20}));
    CHECK_FALSE(repairing_beats_looking({0.5, 0, 20}));
}

TEST_CASE("Orders and causes that make no sense are slips") {
    const std::vector<Cause> causes{{0.5, 1, 1}, {0.5, 1, 1}};
    CHECK_THROWS_AS(expected_repair_cost(causes, {0, 0}), std::invalid_argument);
    CHECK_THROWS_AS(expected_repair_cost(causes, {0}), std::invalid_argument);
    CHECK_THROWS_AS(best_repair_order({{0.5, -1, 1}}), std::invalid_argument);
    CHECK(best_repair_order({}).expected_cost == 0);
}
