#include <catch2/catch.hpp>

#include <queue>

#include "engine/network/nodal/islands.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::network;
using namespace halfsplit::test;

/// The body comes first.
std::size_t place(int node) {
    return static_cast<std::size_t>(node) + 1;
}

/// Nodes that a walk over conducting branches from the body does not reach.
std::vector<int> not_reached(const RandomNetwork& network) {
    std::vector<std::vector<int>> neighbours(static_cast<std::size_t>(network.node_count) + 1);
    for (const Branch& branch : network.branches)
        if (branch.conducts) {
            neighbours[place(branch.from)].push_back(branch.to + 1);
            neighbours[place(branch.to)].push_back(branch.from + 1);
        }
    std::vector<bool> reached(neighbours.size(), false);
    std::queue<int> open;
    reached[0] = true;
    for (open.push(0); !open.empty(); open.pop())
        for (const int next : neighbours[static_cast<std::size_t>(open.front())])
            if (!reached[static_cast<std::size_t>(next)]) {
                reached[static_cast<std::size_t>(next)] = true;
                open.push(next);
            }
    std::vector<int> missed;
    for (int node = 0; node < network.node_count; ++node)
        if (!reached[place(node)]) missed.push_back(node);
    return missed;
}

}  // namespace

TEST_CASE("Floating nodes are those a walk from the body does not reach", "[islands]") {
    for (std::uint64_t start = 0; start < 100; ++start) {
        RandomNetwork network = random_graph(start, 150, static_cast<int>(start), 3);
        add_faults(start, 20, network);
        CHECK(Solver(network.node_count, network.branches).floating_nodes() == not_reached(network));
    }
}

TEST_CASE("Islands are numbered by their first nodes", "[islands]") {
    using halfsplit::model::Resistance;
    const std::vector<Branch> branches{
        {4, 1, Resistance{1}}, {0, kBody, Resistance{1}}, {2, 3, Resistance{1}, false}};
    CHECK(islands(5, branches) == std::vector<int>{kBody, 0, 1, 2, 0});
}
