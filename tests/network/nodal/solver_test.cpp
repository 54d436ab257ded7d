#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "engine/network/nodal/characteristic.h"
#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/newton.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::model;
using namespace halfsplit::network;
using namespace halfsplit::test;

std::size_t place_of(int i) {
    return static_cast<std::size_t>(i);
}

/// Kirchhoff's current law, from the laws and the potentials alone.
void check_kirchhoff(const RandomNetwork& network, const Solution& solution) {
    std::vector<double> sum_a(place_of(network.node_count), 0);
    std::vector<double> largest_a(place_of(network.node_count), 0);
    double power_w = 0;
    double potential_sum_v = 0;
    const auto potential = [&](int node) { return node == kBody ? 0 : solution.potential_v[place_of(node)]; };
    for (std::size_t k = 0; k < network.branches.size(); ++k) {
        const Branch& branch = network.branches[k];
        const double v = potential(branch.from) - potential(branch.to);
        const double current_a = branch.conducts ? characteristic(branch.law, v).current_a : 0;
        REQUIRE(solution.current_a[k] == Approx(current_a).epsilon(1e-9).margin(2e-9));
        power_w += current_a * v;
        for (const auto& [node, sign] : {std::pair(branch.from, 1), std::pair(branch.to, -1)}) {
            if (node == kBody) continue;
            sum_a[place_of(node)] += sign * current_a;
            largest_a[place_of(node)] = std::max(largest_a[place_of(node)], std::abs(current_a));
        }
    }
    for (int node = 0; node < network.node_count; ++node) {
        const double leaked_a = kLeakageSiemens * potential(node);
        REQUIRE(std::abs(sum_a[place_of(node)] + leaked_a) <= 1e-9 + 1e-9 * largest_a[place_of(node)]);
        power_w += leaked_a * potential(node);
        potential_sum_v += std::abs(potential(node));
    }
    REQUIRE(std::abs(power_w) <= 1e-9 * (1 + potential_sum_v));
}

RandomNetwork any_network(std::uint64_t start, int node_count) {
    NetworkKind kind = with_nonlinear_parts(node_count);
    kind.alternators = 0.5;
    RandomNetwork network =
        start % 5 == 4 ? random_graph(start, node_count, node_count / 3, 6) : body_electrics(start, kind);
    add_faults(start + 1, static_cast<int>(start % 6), network);
    return network;
}

RandomNetwork linear_network(std::uint64_t start, int node_count) {
    NetworkKind kind;
    kind.node_count = node_count;
    RandomNetwork network = body_electrics(start, kind);
    add_faults(start + 1, static_cast<int>(start % 6), network);
    return network;
}

}  // namespace

TEST_CASE("A thousand random networks with up to five faults obey Kirchhoff and conserve energy",
          "[solver]") {
    for (std::uint64_t start = 0; start < 1000; ++start) {
        const int nodes = start < 960 ? 5 + static_cast<int>(start) / 3 : 2000;
        const RandomNetwork network = any_network(start, nodes);
        Solver solver(network.node_count, network.branches);
        const auto solution = solver.solve();
        INFO("network " << start << ": " << (solution ? "" : solution.error().reason));
        REQUIRE(solution.has_value());
        REQUIRE(solution->worst_residual_a <= 1e-6);
        check_kirchhoff(network, *solution);
    }
}

TEST_CASE("Two thousand networks of every law, however absurd, have an operating point", "[solver]") {
    for (std::uint64_t start = 0; start < 2000; ++start) {
        const int nodes = 2 + static_cast<int>(start % 150);
        const RandomNetwork network = every_law(start, nodes, nodes * static_cast<int>(start % 7) / 6);
        Solver solver(network.node_count, network.branches);
        const auto solution = solver.solve();
        INFO("network " << start << ": " << (solution ? "" : solution.error().reason));
        REQUIRE(solution.has_value());
        check_kirchhoff(network, *solution);
    }
}

TEST_CASE("The safe way finds the operating point that the quick way finds", "[solver]") {
    for (std::uint64_t start = 0; start < 150; ++start) {
        const RandomNetwork network = any_network(start, 10 + static_cast<int>(start));
        Assembly quick(network.node_count, network.branches);
        REQUIRE(Newton(network.branches, quick).run());
        Assembly safe(network.node_count, network.branches);
        REQUIRE(Newton(network.branches, safe).run_safely());
        for (int i = 0; i < safe.columns(); ++i)
            REQUIRE(std::abs(quick.potential()[place_of(i)] - safe.potential()[place_of(i)]) <= 4e-9);
    }
}

TEST_CASE("From a warm start the operating point is that of a cold start", "[solver]") {
    for (std::uint64_t start = 0; start < 40; ++start) {
        RandomNetwork network = any_network(start, 200);
        Solver warm(network.node_count, network.branches);
        Random random(start);
        for (int i = 0; i < 10; ++i) {
            const int k = random.below(static_cast<int>(network.branches.size()));
            Branch& branch = network.branches[place_of(k)];
            branch.conducts = !branch.conducts;
            warm.set_conducts(k, branch.conducts);
            const auto from_warm = warm.solve();
            const auto from_cold = Solver(network.node_count, network.branches).solve();
            REQUIRE(from_warm.has_value());
            REQUIRE(from_cold.has_value());
            for (int node = 0; node < network.node_count; ++node)
                REQUIRE(from_warm->potential_v[place_of(node)] ==
                        Approx(from_cold->potential_v[place_of(node)]).margin(2e-9));
        }
    }
}

TEST_CASE("A linear network takes one step", "[solver]") {
    for (std::uint64_t start = 0; start < 20; ++start) {
        const RandomNetwork network = linear_network(start, 100);
        CHECK(Solver(network.node_count, network.branches).solve()->iterations == 1);
    }
}

TEST_CASE("Wiring with lamps, diodes and motors settles within eight steps from cold on average",
          "[solver]") {
    int steps = 0;
    for (std::uint64_t start = 0; start < 100; ++start) {
        const RandomNetwork network = body_electrics(start, with_nonlinear_parts(500));
        steps += Solver(network.node_count, network.branches).solve()->iterations;
    }
    CHECK(steps <= 800);
}

TEST_CASE("What the sources do together is the sum of what each does alone", "[solver]") {
    for (std::uint64_t start = 0; start < 30; ++start) {
        const RandomNetwork network = random_graph(start, 200, 150, 5);
        const auto together = Solver(network.node_count, network.branches).solve();
        REQUIRE(together.has_value());
        std::vector<double> sum_v(200, 0);
        for (std::size_t k = 0; k < network.branches.size(); ++k) {
            if (!std::holds_alternative<Source>(network.branches[k].law)) continue;
            RandomNetwork alone = network;
            for (std::size_t other = 0; other < alone.branches.size(); ++other)
                if (auto* source = std::get_if<Source>(&alone.branches[other].law);
                    source != nullptr && other != k)
                    source->emf_v = 0;
            const auto one = Solver(alone.node_count, alone.branches).solve();
            REQUIRE(one.has_value());
            for (std::size_t i = 0; i < sum_v.size(); ++i) sum_v[i] += one->potential_v[i];
        }
        for (std::size_t i = 0; i < sum_v.size(); ++i)
            CHECK(together->potential_v[i] == Approx(sum_v[i]).margin(1e-10));
    }
}

TEST_CASE("A source and an ammeter may change places", "[solver]") {
    // Reciprocity: 1 V in branch a drives through branch b the current that 1 V in branch b drives through
    // branch a.
    for (std::uint64_t start = 0; start < 30; ++start) {
        RandomNetwork network = random_graph(start, 100, 80, 3);
        for (Branch& branch : network.branches)
            if (auto* source = std::get_if<Source>(&branch.law)) source->emf_v = 0;
        const int a = network.node_count + 3;
        const int b = network.node_count + 50;
        network.branches[place_of(a)].law = Source{0, 2};
        network.branches[place_of(b)].law = Source{0, 0.3};
        network.branches[place_of(a)].conducts = network.branches[place_of(b)].conducts = true;
        Solver solver(network.node_count, network.branches);
        solver.set_law(a, Source{1, 2});
        const double through_b_a = solver.solve()->current_a[place_of(b)];
        solver.set_law(a, Source{0, 2});
        solver.set_law(b, Source{1, 0.3});
        CHECK(solver.solve()->current_a[place_of(a)] == Approx(through_b_a).margin(1e-13));
    }
}

TEST_CASE("Each solve after a change equals a solver made anew, to the bit", "[solver]") {
    RandomNetwork network = linear_network(8, 1500);
    Solver kept(network.node_count, network.branches);
    Random random(8);
    for (int i = 0; i < 200; ++i) {
        const int k = random.below(static_cast<int>(network.branches.size()));
        Branch& branch = network.branches[place_of(k)];
        if (random.chance(0.5) && std::holds_alternative<Resistance>(branch.law))
            kept.set_law(k, branch.law = Resistance{random.log_uniform(1e-3, 1e6)});
        else
            kept.set_conducts(k, branch.conducts = !branch.conducts);
        const auto updated = kept.solve();
        const auto anew = Solver(network.node_count, network.branches).solve();
        REQUIRE(updated.has_value());
        REQUIRE(updated->potential_v == anew->potential_v);
        REQUIRE(updated->current_a == anew->current_a);
    }
}

TEST_CASE("A diode and a resistance share the voltage as the equation of Shockley says", "[solver]") {
    // E = u + R I (exp(u / n) - 1), the left side rising in u: solved by bisection to the last bit.
    for (const double ohm : {0.005, 1.0, 100.0, 1e5})
        for (const double emf_v : {0.3, 1.0, 12.6, 28.0}) {
            const Junction junction{2e-9, 0.047};
            double low = 0;
            double high = emf_v;
            for (int i = 0; i < 200; ++i) {
                const double u = (low + high) / 2;
                const double needed_v = u + ohm * junction.saturation_a * std::expm1(u / junction.slope_v);
                (needed_v < emf_v ? low : high) = u;
            }
            const auto forward =
                Solver(1, std::vector<Branch>{{0, kBody, Source{emf_v, ohm}}, {0, kBody, junction}}).solve();
            REQUIRE(forward.has_value());
            CHECK(std::abs(forward->potential_v[0] - low) <= 1e-9 * std::max(1.0, emf_v * ohm));
            const auto blocked =
                Solver(1, std::vector<Branch>{{0, kBody, Source{-emf_v, ohm}}, {0, kBody, junction}}).solve();
            REQUIRE(blocked.has_value());
            CHECK(std::abs(blocked->current_a[1]) <= junction.saturation_a);
        }
}

TEST_CASE("An alternator feeds the loads up to its limit and the battery the rest", "[solver]") {
    // Worked by hand: 14 V behind 10 mohm, at most 60 A; battery 12.6 V behind 10 mohm; load 0.1 ohm. At the
    // limit (u - 12.6) / 0.01 + u / 0.1 = 60, so u = 1320 / 110 = 12 V. There the source could give (14 - 12)
    // / 0.01 = 200 A, so the limit is indeed what holds.
    const auto solution = Solver(1, std::vector<Branch>{{0, kBody, RegulatedSource{14, 0.01, 60}},
                                                        {0, kBody, Source{12.6, 0.01}},
                                                        {0, kBody, Resistance{0.1}}})
                              .solve();
    REQUIRE(solution.has_value());
    CHECK(solution->potential_v[0] == Approx(1320.0 / 110).epsilon(1e-8));
    CHECK(solution->current_a[0] == -60);
    CHECK(solution->current_a[1] == Approx(-60).epsilon(1e-6));
}

TEST_CASE("Lamps and motors without supply stand at 0 V", "[solver]") {
    std::vector<Branch> branches{{0, kBody, Source{12, 0.01}},   {0, 1, Resistance{0.01}},
                                 {1, 2, Filament{12, 21, 0.1}},  {2, 3, RunningMotor{0.9, 0.6, 1.4, 12}},
                                 {3, 4, Junction{1e-12, 0.026}}, {4, kBody, Resistance{0.01}}};
    Solver solver(5, branches);
    REQUIRE(solver.solve().has_value());
    solver.set_conducts(1, false);
    solver.set_conducts(5, false);
    const auto dead = solver.solve();
    REQUIRE(dead.has_value());
    for (int node = 1; node < 5; ++node) CHECK(std::abs(dead->potential_v[place_of(node)]) <= 1e-12);
    CHECK(solver.floating_nodes() == std::vector<int>{1, 2, 3, 4});
}

TEST_CASE("A branch may change from a straight to a bent law and back", "[solver]") {
    Solver solver(1, std::vector<Branch>{{0, kBody, Source{12, 1}}, {0, kBody, Resistance{5}}});
    CHECK(solver.solve()->potential_v[0] == Approx(10).epsilon(1e-8));
    solver.set_law(1, Junction{1e-12, 0.026});
    CHECK(solver.solve()->potential_v[0] == Approx(0.78).margin(0.01));
    solver.set_law(1, Resistance{5});
    const auto back = solver.solve();
    CHECK(back->potential_v[0] == Approx(10).epsilon(1e-8));
    CHECK(back->iterations == 1);
}

// Theory: two laws with the same current at a voltage but another slope there leave every potential as it is
// and not what the network measures.
TEST_CASE("Resistances after a law has changed its slope alone are those of a solver made anew", "[solver]") {
    const auto same_at_its_voltage = [](const Law& before, const Law& after, const Source& source) {
        const auto branches = [&source](const Law& law) {
            return std::vector<Branch>{{0, kBody, source}, {0, 1, Resistance{3}}, {1, kBody, law}};
        };
        Solver solver(2, branches(before));
        REQUIRE(solver.solve());
        solver.set_law(2, after);
        REQUIRE(solver.solve());
        Solver anew(2, branches(after));
        REQUIRE(anew.solve());
        const std::vector<int> asked{0, 1, 2};
        std::vector<double> ohm(asked.size());
        std::vector<double> ohm_anew(asked.size());
        solver.resistances(asked, ohm);
        anew.resistances(asked, ohm_anew);
        for (std::size_t i = 0; i < asked.size(); ++i)
            CHECK(ohm[i] == Approx(ohm_anew[i]).epsilon(1e-3).margin(1e-12));
        std::vector<double> spread;
        std::vector<double> spread_anew;
        solver.spread(2, spread);
        anew.spread(2, spread_anew);
        for (std::size_t node = 0; node < spread.size(); ++node)
            CHECK(spread[node] == Approx(spread_anew[node]).epsilon(1e-3).margin(1e-12));
    };
    // A dark bulb is replaced by a smaller one.
    same_at_its_voltage(Filament{12, 21, 0.1}, Filament{12, 5, 0.1}, Source{0, 0.01});
    // A motor at rest gets other brushes.
    same_at_its_voltage(RunningMotor{1, 2, 4, 12}, RunningMotor{1.5, 2, 4, 12}, Source{0, 0.01});
}

TEST_CASE("A branch from a node to itself carries its own current and nothing else", "[solver]") {
    const auto solution = Solver(1, std::vector<Branch>{{0, kBody, Source{12, 1}},
                                                        {0, kBody, Resistance{5}},
                                                        {0, 0, Resistance{1}},
                                                        {kBody, kBody, Source{6, 2}}})
                              .solve();
    REQUIRE(solution.has_value());
    CHECK(solution->potential_v[0] == Approx(10).epsilon(1e-8));
    CHECK(solution->current_a[2] == 0);
    CHECK(solution->current_a[3] == -3);
}

TEST_CASE("A network without nodes or without branches has an operating point", "[solver]") {
    CHECK(Solver(0, {}).solve().has_value());
    const auto lonely = Solver(3, {}).solve();
    REQUIRE(lonely.has_value());
    CHECK(lonely->potential_v == std::vector<double>{0, 0, 0});
}

TEST_CASE("Branches between nodes that do not exist and laws out of range are refused", "[solver]") {
    using Branches = std::vector<Branch>;
    CHECK_THROWS_AS(Solver(1, Branches{{0, 1, Resistance{1}}}), std::invalid_argument);
    CHECK_THROWS_AS(Solver(1, Branches{{-2, 0, Resistance{1}}}), std::invalid_argument);
    CHECK_THROWS_AS(Solver(-1, Branches{}), std::invalid_argument);
    CHECK_THROWS_AS(Solver(1, Branches{{0, kBody, Resistance{0}}}), std::invalid_argument);
    Solver solver(1, Branches{{0, kBody, Resistance{1}}});
    CHECK_THROWS_AS(solver.set_law(0, Resistance{-1}), std::invalid_argument);
    CHECK_THROWS_AS(solver.set_law(1, Resistance{1}), std::out_of_range);
}

TEST_CASE("A network beyond the range of the arithmetic is an error that names a node", "[solver]") {
    const auto solution =
        Solver(2, std::vector<Branch>{{0, kBody, Source{1e300, 1e-300}}, {0, 1, Resistance{1}}}).solve();
    REQUIRE_FALSE(solution.has_value());
    CHECK((solution.error().node == 0 || solution.error().node == 1));
    CHECK_FALSE(solution.error().reason.empty());
}
