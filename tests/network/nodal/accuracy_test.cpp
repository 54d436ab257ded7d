// The solver against the textbook's nodal equations in 113-bit arithmetic (tests/support/quadruple.h).

#include <catch2/catch.hpp>

#include <cmath>

#include "engine/network/nodal/islands.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/quadruple.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::network;
using namespace halfsplit::test;
using halfsplit::model::Resistance;
using halfsplit::model::Source;

double worst_error_v(Solver& solver, const RandomNetwork& network) {
    const auto solution = solver.solve();
    REQUIRE(solution.has_value());
    const std::vector<double> exact = quadruple_potentials(network.node_count, network.branches);
    double worst_v = 0;
    for (std::size_t i = 0; i < exact.size(); ++i) {
        const double error_v = std::abs(solution->potential_v[i] - exact[i]);
        if (!(error_v <= worst_v)) worst_v = error_v;
    }
    return worst_v;
}

double worst_error_v(const RandomNetwork& network) {
    Solver solver(network.node_count, network.branches);
    return worst_error_v(solver, network);
}

RandomNetwork wiring(std::uint64_t start, int nodes, double open = 0.04) {
    NetworkKind kind;
    kind.node_count = nodes;
    kind.open = open;
    return body_electrics(start, kind);
}

}  // namespace

TEST_CASE("Potentials of wiring with 5 000 nodes are right to 1e-12 V", "[accuracy]") {
    CHECK(worst_error_v(wiring(1, 5000)) <= 1e-12);
    CHECK(worst_error_v(wiring(2, 5000, 0.3)) <= 1e-12);
}

TEST_CASE("Potentials are right to 1e-12 V after a thousand switches were thrown", "[accuracy]") {
    RandomNetwork network = wiring(3, 5000);
    Solver solver(network.node_count, network.branches);
    Random random(3);
    for (int i = 0; i < 1000; ++i) {
        const int k = random.below(static_cast<int>(network.branches.size()));
        Branch& branch = network.branches[static_cast<std::size_t>(k)];
        branch.conducts = !branch.conducts;
        solver.set_conducts(k, branch.conducts);
        REQUIRE(solver.solve().has_value());
    }
    CHECK(worst_error_v(solver, network) <= 1e-12);
}

TEST_CASE("Eighteen powers of ten of conductance in one network cost no digits", "[accuracy]") {
    for (std::uint64_t start = 0; start < 40; ++start)
        CHECK(worst_error_v(random_graph(start, 300, static_cast<int>(start) * 5, 18)) <= 1e-12);
    CHECK(worst_error_v(random_graph(99, 5000, 1500, 18)) <= 1e-12);
}

TEST_CASE("Islands that hang on the leakage alone stand at exactly 0 V", "[accuracy]") {
    RandomNetwork network = wiring(4, 2000, 0.25);
    Solver solver(network.node_count, network.branches);
    const auto solution = solver.solve();
    REQUIRE(solution.has_value());
    const std::vector<int> floating = solver.floating_nodes();
    REQUIRE(floating.size() > 100);
    for (const int node : floating) CHECK(solution->potential_v[static_cast<std::size_t>(node)] == 0);
    CHECK(worst_error_v(solver, network) <= 1e-12);
}

TEST_CASE("A battery without any tie to the body keeps its voltage and stands symmetrically about it",
          "[accuracy]") {
    // Two equal leakages and no other way to the body: +6 V and -6 V. With a load of 1.19 ohm across 12 V
    // behind 10 mohm the terminals stand 11.9 V apart (12 * 1.19 / 1.2), less the 6e-11 V that the leakage
    // drops in the battery.
    Solver solver(2, std::vector<Branch>{{0, 1, Source{12, 0.01}}, {0, 1, Resistance{1.19}, false}});
    auto open = solver.solve();
    REQUIRE(open.has_value());
    CHECK(open->potential_v[0] - open->potential_v[1] == Approx(12).margin(1e-10));
    CHECK(std::abs(open->potential_v[0] + open->potential_v[1]) <= 1e-12);
    CHECK(solver.floating_nodes() == std::vector<int>{0, 1});
    solver.set_conducts(1, true);
    auto loaded = solver.solve();
    REQUIRE(loaded.has_value());
    CHECK(loaded->potential_v[0] - loaded->potential_v[1] == Approx(11.9).margin(1e-10));
    CHECK(std::abs(loaded->potential_v[0] + loaded->potential_v[1]) <= 1e-12);
}

TEST_CASE("Floating batteries in large islands are right to 1e-12 V", "[accuracy]") {
    // Each vehicle's strap to the body and all its studs are open: what remains is tied by the leakage alone.
    RandomNetwork network = wiring(5, 3000);
    for (Branch& branch : network.branches)
        if (branch.to == kBody) branch.conducts = false;
    Solver solver(network.node_count, network.branches);
    CHECK(solver.floating_nodes().size() == 3000);
    CHECK(worst_error_v(solver, network) <= 1e-12);
}

TEST_CASE("A battery tied to the body by a megohm is right to 1e-12 V", "[accuracy]") {
    RandomNetwork network{3,
                          {{0, 1, Source{12.6, 0.005}}, {0, 2, Resistance{0.01}}, {2, 1, Resistance{0.1}}}};
    network.branches.push_back({1, kBody, Resistance{1e6}});
    CHECK(worst_error_v(network) <= 1e-12);
}

TEST_CASE("A hub of twenty thousand weak circuits at a strong source is right to 1e-12 V", "[accuracy]") {
    RandomNetwork network{20001, {{0, kBody, Source{12, 0.01}}}};
    for (int node = 1; node <= 20000; ++node) network.branches.push_back({0, node, Resistance{1}});
    CHECK(worst_error_v(network) <= 1e-12);
}

TEST_CASE("A strong branch leaves nothing behind when it opens beside a weak one", "[accuracy]") {
    // 1 microohm in parallel with 1 gigohm: subtracting the one from their sum would lose the other's digits.
    RandomNetwork network{3,
                          {{0, kBody, Source{12, 0.01}},
                           {0, 1, Resistance{1e-6}},
                           {1, 0, Resistance{1e9}},
                           {1, 2, Resistance{10}},
                           {2, kBody, Resistance{1e8}}}};
    Solver solver(network.node_count, network.branches);
    CHECK(worst_error_v(solver, network) <= 1e-12);
    network.branches[1].conducts = false;
    solver.set_conducts(1, false);
    CHECK(worst_error_v(solver, network) <= 1e-12);
    CHECK(solver.solve()->current_a[1] == 0);
}

TEST_CASE("A mesh of 60 by 60 is solved to 1e-12 V", "[accuracy]") {
    CHECK(worst_error_v(grid(6, 60)) <= 1e-12);
}
