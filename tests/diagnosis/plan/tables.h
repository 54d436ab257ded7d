#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <map>
#include <random>
#include <string>

#include "engine/diagnosis/plan/read_fault_table.h"

namespace halfsplit::test {

using diagnosis::plan::FaultTable;

inline FaultTable table_of(const std::string& csv) {
    const auto table = diagnosis::plan::read_fault_table(csv, "a.csv");
    INFO((table ? std::string() : to_text(table.error().front())));
    REQUIRE(table);
    return *table;
}

/// Six states, five tests, all costs 1 (Pattipati & Alexandridis, IEEE Trans. SMC 20(4), 1990; from memory).
inline FaultTable six_states() {
    return table_of(
        "fault,prior,t1,t2,t3,t4,t5\n"
        "s0,0.70,0,0,0,0,0\n"
        "s1,0.01,0,1,0,0,1\n"
        "s2,0.02,0,0,1,1,0\n"
        "s3,0.10,1,0,0,1,1\n"
        "s4,0.05,1,1,0,0,0\n"
        "s5,0.12,1,1,1,1,0\n");
}

/// A run of equally likely segments with a test point between neighbours: alive up to the open one.
inline FaultTable run_of_segments(int count) {
    FaultTable table;
    for (int segment = 0; segment < count; ++segment)
        table.faults.push_back({"segment " + std::to_string(segment), 1.0 / count});
    for (int point = 1; point < count; ++point)
        table.tests.push_back({"point " + std::to_string(point), 1, {"dead", "alive"}});
    for (int segment = 0; segment < count; ++segment)
        for (int point = 1; point < count; ++point) table.cells.push_back(segment >= point ? 1 : 0);
    return table;
}

/// What random tables differ in.
struct Shape {
    int faults = 6;
    int tests = 6;
    int outcomes = 2;
    bool equal_costs = false;
};

/// Faults that nothing tells apart, tests that tell nothing and priors or costs of 0 come up too.
inline FaultTable random_table(const Shape& shape, unsigned seed) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> share(0, 1);
    const double common = share(generator);  // how often a test shows its first outcome
    FaultTable table;
    for (int fault = 0; fault < shape.faults; ++fault) {
        const double prior = share(generator) < 0.1 ? 0 : share(generator);
        table.faults.push_back({"f" + std::to_string(fault), fault == 0 ? 0.5 : prior});
    }
    for (int test = 0; test < shape.tests; ++test) {
        const double cost = share(generator) < 0.05 ? 0 : 1 + 9 * share(generator);
        table.tests.push_back({"t" + std::to_string(test), shape.equal_costs ? 1 : cost, {}});
        for (int outcome = 0; outcome < shape.outcomes; ++outcome)
            table.tests.back().outcomes.push_back("o" + std::to_string(outcome));
    }
    for (int cell = 0; cell < shape.faults * shape.tests; ++cell) {
        const int other = 1 + static_cast<int>(generator() % static_cast<unsigned>(shape.outcomes - 1));
        table.cells.push_back(share(generator) < common ? 0 : other);
    }
    normalise(table);
    return table;
}

/// The least expected cost by trying every test on every set of faults: written from the definition alone. At
/// most about ten faults.
class EveryTree {
  public:
    explicit EveryTree(const FaultTable& table) : table_(table) {}

    double least_cost() { return of((1U << table_.faults.size()) - 1); }

  private:
    double of(unsigned set) {
        if (const auto known = known_.find(set); known != known_.end()) return known->second;
        double prior = 0;
        for (std::size_t fault = 0; fault < table_.faults.size(); ++fault)
            if ((set >> fault) & 1U) prior += table_.faults[fault].prior;
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t test = 0; test < table_.tests.size(); ++test) {
            std::map<int, unsigned> left;
            for (std::size_t fault = 0; fault < table_.faults.size(); ++fault)
                if ((set >> fault) & 1U)
                    left[table_.outcome(static_cast<int>(fault), static_cast<int>(test))] |= 1U << fault;
            if (left.size() < 2) continue;
            double cost = prior * table_.tests[test].cost;
            for (const auto& [outcome, rest] : left) cost += of(rest);
            least = std::min(least, cost);
        }
        return known_[set] = least == std::numeric_limits<double>::infinity() ? 0 : least;
    }

    const FaultTable& table_;
    std::map<unsigned, double> known_;
};

}  // namespace halfsplit::test
