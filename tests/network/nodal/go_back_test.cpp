#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/random_network.h"

using namespace halfsplit;
using network::Branch;
using network::Solution;
using network::Solver;
using test::Random;
using test::RandomNetwork;

namespace {

/// Switches, and laws that become others: also straight lines bent ones, and back.
void change_something(const RandomNetwork& network, Random& random, Solver& solver) {
    const int branch = random.below(static_cast<int>(network.branches.size()));
    switch (random.below(3)) {
        case 0:
            return solver.set_conducts(branch, random.chance(0.5));
        case 1:
            return solver.set_law(branch, model::Resistance{random.log_uniform(1e-3, 1e6)});
        default:
            return solver.set_law(branch, model::Filament{12, random.log_uniform(1, 100)});
    }
}

void check_same(Solver& one, Solver& other) {
    Solution a;
    Solution b;
    const bool has_a = one.solve_into(a).has_value();
    REQUIRE(has_a == other.solve_into(b).has_value());
    if (!has_a) return;
    REQUIRE(a.potential_v == b.potential_v);
    REQUIRE(a.current_a == b.current_a);
    REQUIRE(a.iterations == b.iterations);
}

}  // namespace

// The reference is another solver that was never led astray.
TEST_CASE("A solver that has gone back goes on as if nothing had been changed, to the bit", "[solver]") {
    for (std::uint64_t start = 0; start < 60; ++start) {
        const int nodes = start < 50 ? 4 + static_cast<int>(start) * 4 : 600;
        const RandomNetwork network = start % 3 == 2
                                          ? test::every_law(start, nodes, nodes / 3)
                                          : test::body_electrics(start, test::with_nonlinear_parts(nodes));
        Random random(start);
        Solver straight(network.node_count, network.branches);
        Solver astray(network.node_count, network.branches);
        check_same(straight, astray);
        INFO("network " << start);
        straight.remember();
        astray.remember();
        for (int round = 0; round < 8; ++round) {
            for (int changes = random.below(20); changes > 0; --changes) {
                change_something(network, random, astray);
                if (random.chance(0.3)) static_cast<void>(astray.solve());
            }
            astray.go_back();
            straight.go_back();
            Random once(start * 100 + static_cast<std::uint64_t>(round));
            Random again = once;
            for (int changes = 0; changes < 3; ++changes) {
                change_something(network, once, straight);
                change_something(network, again, astray);
            }
            check_same(straight, astray);
        }
    }
}

// The reference solves each network from cold, without a slack.
TEST_CASE("What is tried with a slack is as near as the slack says", "[solver]") {
    constexpr double kSlack = 1000;
    for (std::uint64_t start = 0; start < 12; ++start) {
        RandomNetwork network = test::body_electrics(start, test::with_nonlinear_parts(900));
        const int sound = static_cast<int>(network.branches.size());
        for (int node = 0; node < network.node_count; node += 9)
            network.branches.push_back({node, network::kBody, model::Resistance{1e-3}, false});
        Solver solver(network.node_count, network.branches, kSlack);
        REQUIRE(solver.solve());
        solver.remember();
        Random random(start);
        Solution tried;
        for (int round = 0; round < 25; ++round) {
            std::vector<Branch> changed = network.branches;
            const bool is_short = random.chance(0.5);
            const int branch = is_short ? sound + random.below(static_cast<int>(changed.size()) - sound)
                                        : random.below(sound);
            changed[static_cast<std::size_t>(branch)].conducts = is_short;
            solver.go_back();
            solver.set_conducts(branch, is_short);
            REQUIRE(solver.solve_into(tried));
            const auto judge = Solver(network.node_count, changed).solve();
            REQUIRE(judge);
            double worst_v = 0;
            for (std::size_t node = 0; node < tried.potential_v.size(); ++node)
                worst_v = std::max(worst_v, std::abs(tried.potential_v[node] - judge->potential_v[node]));
            INFO("network " << start << ", branch " << branch);
            CHECK(worst_v <= kSlack * halfsplit::network::kPotentialToleranceV);
        }
    }
}

TEST_CASE("A solver goes back to what it last remembered", "[solver]") {
    const std::vector<Branch> branches{{0, network::kBody, model::Source{12, 1}, true},
                                       {0, network::kBody, model::Resistance{2}, true}};
    Solver solver(1, branches);
    solver.remember();
    solver.set_law(1, model::Resistance{5});
    solver.remember();
    solver.set_conducts(1, false);
    CHECK(solver.solve()->potential_v.front() == Approx(12));
    solver.go_back();
    CHECK(solver.solve()->potential_v.front() == Approx(10));  // by hand: 12 V over 1 and 5 ohm
}

TEST_CASE("There is no way back without having remembered", "[solver]") {
    const std::vector<Branch> branches{{0, network::kBody, model::Resistance{2}, true}};
    Solver solver(1, branches);
    CHECK_THROWS_AS(solver.go_back(), std::logic_error);
}
