#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

#include "engine/network/nodal/elimination_pattern.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::network;
using namespace halfsplit::test;

std::vector<Link> links_of(const RandomNetwork& network) {
    std::vector<Link> links;
    for (const Branch& branch : network.branches)
        if (branch.from != branch.to && branch.from != kBody && branch.to != kBody)
            links.push_back({branch.from, branch.to});
    return links;
}

void check_each_once(std::vector<int> order, int node_count) {
    std::sort(order.begin(), order.end());
    std::vector<int> all(static_cast<std::size_t>(node_count));
    std::iota(all.begin(), all.end(), 0);
    CHECK(order == all);
}

/// Columns between the deepest column and its root.
int height(const EliminationPattern& pattern) {
    std::vector<int> depth(static_cast<std::size_t>(pattern.columns()), 1);
    for (int p = pattern.columns() - 1; p >= 0; --p)
        if (pattern.parent(p) >= 0)
            depth[static_cast<std::size_t>(p)] = depth[static_cast<std::size_t>(pattern.parent(p))] + 1;
    return depth.empty() ? 0 : *std::max_element(depth.begin(), depth.end());
}

}  // namespace

TEST_CASE("The elimination order names every node once", "[ordering]") {
    check_each_once(elimination_order(0, {}), 0);
    check_each_once(elimination_order(3, {}), 3);
    for (std::uint64_t start = 0; start < 200; ++start) {
        const int nodes = 1 + static_cast<int>(start) * 3;
        const RandomNetwork any = random_graph(start, nodes, nodes * static_cast<int>(start % 4), 3);
        check_each_once(elimination_order(nodes, links_of(any)), nodes);
    }
}

TEST_CASE("A bushy tree is eliminated with hardly a new coupling", "[ordering]") {
    for (std::uint64_t start = 0; start < 20; ++start) {
        const std::vector<Link> links = links_of(random_graph(start, 500, 0, 3));
        CHECK(analyse(500, links).entries() <= static_cast<int>(links.size()) + 5);
    }
}

TEST_CASE("Linking two nodes many times makes one coupling", "[ordering]") {
    const std::vector<Link> links{{0, 1}, {1, 0}, {1, 2}, {0, 1}, {2, 1}};
    const EliminationPattern pattern = analyse(3, links);
    CHECK(pattern.entries() == 2);
}

TEST_CASE("A long chain is halved again and again", "[ordering]") {
    std::vector<Link> links;
    for (int i = 0; i + 1 < 4096; ++i) links.push_back({i, i + 1});
    CHECK(height(analyse(4096, links)) <= 120);
}

TEST_CASE("Circuits in parallel between two hubs reduce to one coupling", "[ordering]") {
    std::vector<Link> links;
    for (int i = 0; i < 1000; ++i) {
        links.push_back({0, 2 + 2 * i});
        links.push_back({2 + 2 * i, 3 + 2 * i});
        links.push_back({3 + 2 * i, 1});
    }
    CHECK(analyse(2002, links).entries() == 4 * 1000 + 1);
}

TEST_CASE("Wiring fills in little", "[ordering]") {
    NetworkKind kind;
    kind.node_count = 5000;
    const EliminationPattern pattern = analyse(5000, links_of(body_electrics(1, kind)));
    CHECK(pattern.entries() < 3 * 5000);
    CHECK(height(pattern) < 100);
    CHECK(pattern.has_targets);
}

TEST_CASE("What is watched is eliminated last, with the same couplings", "[ordering]") {
    for (std::uint64_t start = 0; start < 30; ++start) {
        const int nodes = 300 + 20 * static_cast<int>(start);
        const std::vector<Link> links = start % 2 == 0
                                            ? links_of(body_electrics(start, with_nonlinear_parts(nodes)))
                                            : links_of(random_graph(start, nodes, nodes / 3, 3));
        std::vector<int> watched;
        for (int node = static_cast<int>(start) % 5; node < nodes; node += 23) watched.push_back(node);
        const EliminationPattern plain = analyse(nodes, links);
        const EliminationPattern pattern = analyse(nodes, links, kTargetsPerEntry, watched);
        check_each_once(pattern.column_of_node, nodes);
        CHECK(pattern.entries() == plain.entries());
        CHECK(height(pattern) == height(plain));
        for (const int node : watched)
            CHECK(pattern.column_of_node[static_cast<std::size_t>(node)] >= pattern.first_watched);
        // No more than their ways to the end: each column from there on has something watched in it.
        std::vector<bool> has_watched(static_cast<std::size_t>(nodes));
        for (const int node : watched)
            has_watched[static_cast<std::size_t>(pattern.column_of_node[static_cast<std::size_t>(node)])] =
                true;
        for (int p = 0; p < nodes; ++p) {
            CHECK(has_watched[static_cast<std::size_t>(p)] == (p >= pattern.first_watched));
            if (has_watched[static_cast<std::size_t>(p)] && pattern.parent(p) >= 0)
                has_watched[static_cast<std::size_t>(pattern.parent(p))] = true;
        }
    }
    CHECK(analyse(3, std::vector<Link>{{0, 1}, {1, 2}}).first_watched == 3);
}

TEST_CASE("The table of targets of a mesh is left out beyond its limit", "[ordering]") {
    const std::vector<Link> links = links_of(grid(1, 60));
    CHECK_FALSE(analyse(3600, links, 2).has_targets);
    CHECK(analyse(3600, links, 2).target.empty());
}
