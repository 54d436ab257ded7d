#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/nodal/assembly.h"
#include "engine/network/nodal/characteristic.h"
#include "tests/support/random_network.h"

using namespace halfsplit;
using network::Assembly;
using network::Tie;
using test::Random;
using test::RandomNetwork;

namespace {

/// With every branch a straight line: its own, or some tangent.
Assembly with_lines(const RandomNetwork& network) {
    Assembly assembly(network.node_count, network.branches);
    for (int k = 0; k < assembly.branches(); ++k) {
        const network::Branch& branch = network.branches[at(k)];
        const double at_v = network::usual_voltage(branch.law);
        const auto there = network::characteristic(branch.law, at_v);
        if (branch.conducts) assembly.set(k, {there.slope_s, there.current_a - there.slope_s * at_v});
    }
    return assembly;
}

std::vector<int> curved(const RandomNetwork& network) {
    std::vector<int> branches;
    for (int k = 0; k < static_cast<int>(network.branches.size()); ++k)
        if (!network::is_linear(network.branches[at(k)].law)) branches.push_back(k);
    return branches;
}

std::vector<double> copy(std::span<const double> potential) {
    return {potential.begin(), potential.end()};
}

/// As a share of the largest of all: on an island that leaks alone, amperes make gigavolts.
double furthest(const std::vector<double>& one, const std::vector<double>& other) {
    double worst_v = 0;
    double largest_v = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        worst_v = std::max(worst_v, std::abs(one[i] - other[i]));
        largest_v = std::max(largest_v, std::abs(other[i]));
    }
    return worst_v / largest_v;
}

}  // namespace

// The reference eliminates everything anew.
TEST_CASE("Sources that are shifted give what setting them gives", "[assembly]") {
    for (std::uint64_t start = 0; start < 20; ++start) {
        const RandomNetwork network = test::body_electrics(start, test::with_nonlinear_parts(400));
        const std::vector<int> lamps = curved(network);
        Assembly shifted = with_lines(network);
        Assembly set = shifted;
        const std::vector<double> sound = copy(set.solve());
        shifted.remember();
        Random random(start);
        for (int round = 0; round < 5; ++round) {
            for (int i = 0; i < 30; ++i) {
                const int branch = lamps[at(random.below(static_cast<int>(lamps.size())))];
                REQUIRE(shifted.is_watched(branch));
                const Tie now = shifted.line(branch);
                const Tie to{random.chance(0.2) ? now.conductance + 0.01 : now.conductance,
                             now.source + random.uniform(-1, 1)};
                if (to.conductance == now.conductance)
                    shifted.shift_source(branch, to.source);
                else
                    shifted.set(branch, to);
                set.set(branch, to);
            }
            shifted.solve_watched();
            const std::vector<double> in_parts = copy(shifted.solve_others());
            CHECK(furthest(in_parts, copy(set.solve())) < 1e-13);
            if (round == 2) {
                CHECK(copy(shifted.solve()) == copy(set.potential()));
            }
        }
        CHECK(furthest(copy(set.potential()), sound) > 1e-3);
        shifted.go_back();
        CHECK(copy(shifted.potential()) == sound);
        CHECK(copy(shifted.solve()) == sound);
    }
}

TEST_CASE("A branch carries something unless its line is 0 A everywhere", "[assembly]") {
    const std::vector<network::Branch> branches{{0, network::kBody, model::Resistance{2}, true},
                                                {0, network::kBody, model::Source{12, 1}, true}};
    Assembly assembly(1, branches);
    CHECK_FALSE(assembly.carries(0));
    assembly.set(0, {0.5, 0});
    assembly.set(1, {0, -3});
    CHECK(assembly.carries(0));
    CHECK(assembly.carries(1));
    CHECK(assembly.solve()[0] == Approx(6));  // by hand: 3 A through 2 ohm
    assembly.remember();
    assembly.set(1, {});
    CHECK_FALSE(assembly.carries(1));
    assembly.go_back();
    CHECK(assembly.carries(1));
}
