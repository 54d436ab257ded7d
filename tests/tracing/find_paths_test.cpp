#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

#include "engine/tracing/find_paths.h"
#include "tests/tracing/bench.h"

namespace halfsplit::tracing {

using test::Bench;
using test::point_name;

namespace {

Bench points(int count) {
    Bench bench;
    for (int i = 0; i < count; ++i) bench.part(point_name(i), "X");
    return bench;
}

PathRules towards(const Wiring& wiring, int target) {
    PathRules rules;
    rules.targets.assign(static_cast<std::size_t>(wiring.vertex_count()), false);
    rules.targets[static_cast<std::size_t>(target)] = true;
    return rules;
}

/// Every simple path by plain recursion: the definition, with no thought for the time it takes.
void walk_all(const Bench& bench, int at, int target, std::vector<int>& branches, std::set<int>& visited,
              std::set<std::vector<int>>& found) {
    if (at == target) {
        found.insert(branches);
        return;
    }
    visited.insert(at);
    for (std::size_t i = 0; i < bench.network.branches.size(); ++i) {
        const network::Branch& branch = bench.network.branches[i].electrical;
        if (branch.from != at && branch.to != at) continue;
        const int next = branch.from == at ? branch.to : branch.from;
        if (!branch.conducts || visited.contains(next)) continue;
        branches.push_back(static_cast<int>(i));
        walk_all(bench, next, target, branches, visited, found);
        branches.pop_back();
    }
    visited.erase(at);
}

}  // namespace

TEST_CASE("On random networks exactly the simple paths there are are found") {
    std::mt19937 random(7);
    int paths_seen = 0;
    for (int round = 0; round < 200; ++round) {
        const int count = 4 + static_cast<int>(random() % 4);
        Bench bench = points(count);
        const int wires = 2 * count + static_cast<int>(random() % 5);
        for (int i = 0; i < wires; ++i) {
            const int from = static_cast<int>(random() % static_cast<unsigned>(count));
            const int to = static_cast<int>(random() % static_cast<unsigned>(count));
            bench.wire("W" + std::to_string(i), point_name(from), point_name(to));
            if (random() % 8 == 0) bench.open("W" + std::to_string(i));
        }
        const Wiring wiring = bench.wiring();
        std::set<std::vector<int>> expected;
        std::vector<int> branches;
        std::set<int> visited;
        walk_all(bench, 0, count - 1, branches, visited, expected);
        PathRules rules = towards(wiring, count - 1);
        rules.most = 100000;
        const FoundRoutes found = find_paths(wiring, 0, rules);
        CHECK_FALSE(found.cut);
        std::set<std::vector<int>> routes;
        for (const Route& route : found.routes) routes.insert(route.branches);
        CHECK(routes.size() == found.routes.size());
        CHECK(routes == expected);
        paths_seen += static_cast<int>(expected.size());
    }
    CHECK(paths_seen > 500);
}

TEST_CASE("Of more paths than anyone can read the first are listed, and it is said that there are more") {
    constexpr int kStages = 40;  // two wires a stage: 2 to the power of 40 paths
    Bench bench = points(kStages + 1);
    for (int i = 0; i < kStages; ++i)
        for (const char* strand : {"a", "b"})
            bench.wire("W" + std::to_string(i) + strand, point_name(i), point_name(i + 1));
    const Wiring wiring = bench.wiring();
    const FoundRoutes found = find_paths(wiring, 0, towards(wiring, kStages));
    CHECK(found.routes.size() == 64);
    CHECK(found.cut);
}

TEST_CASE("A maze that leads nowhere costs nothing") {
    constexpr int kSide = 7;  // a lattice of 49 points has more simple paths than could be walked
    Bench bench = points(kSide * kSide + 2);
    for (int row = 0; row < kSide; ++row)
        for (int column = 0; column < kSide; ++column) {
            const int at = row * kSide + column;
            if (column + 1 < kSide) bench.wire("R" + std::to_string(at), point_name(at), point_name(at + 1));
            if (row + 1 < kSide) bench.wire("D" + std::to_string(at), point_name(at), point_name(at + kSide));
        }
    const int start = kSide * kSide;
    bench.wire("into", point_name(start), point_name(0));
    bench.wire("direct", point_name(start), point_name(start + 1));
    const Wiring wiring = bench.wiring();
    const FoundRoutes found = find_paths(wiring, start, towards(wiring, start + 1));
    CHECK_FALSE(found.cut);
    REQUIRE(found.routes.size() == 1);
    CHECK(found.routes.front().branches == std::vector<int>{bench.branch("direct")});
}

TEST_CASE("The shortest way on is tried first") {
    Bench bench = points(5);
    bench.wire("W1", point_name(0), point_name(1));
    bench.wire("W2", point_name(1), point_name(2));
    bench.wire("W3", point_name(2), point_name(4));
    bench.wire("W4", point_name(0), point_name(4));
    const Wiring wiring = bench.wiring();
    const FoundRoutes found = find_paths(wiring, 0, towards(wiring, 4));
    REQUIRE(found.routes.size() == 2);
    CHECK(found.routes.front().branches == std::vector<int>{bench.branch("W4")});
}

}  // namespace halfsplit::tracing
