// The solver against ngspice 39, which shares no code and no formulation with it
// (tests/support/ngspice_deck.h).

#include <catch2/catch.hpp>

#include <cmath>

#include "engine/network/nodal/solver.h"
#include "tests/support/ngspice.h"
#include "tests/support/ngspice_deck.h"
#include "tests/support/random_network.h"

using namespace halfsplit::test;
using namespace halfsplit::network;

TEST_CASE("ngspice is asked the right way: a divider", "[ngspice]") {
    Ngspice ngspice;
    REQUIRE(ngspice.load({"divider", "V1 in 0 DC 9", "R1 in out 2k", "R2 out 0 1k"}).has_value());
    REQUIRE(ngspice.operating_point().has_value());
    CHECK(ngspice.value("out").value() == Approx(3).epsilon(1e-9));
    CHECK_FALSE(ngspice.value("elsewhere").has_value());
}

TEST_CASE("What ngspice finds wrong comes back as an error, and it still runs", "[ngspice]") {
    Ngspice ngspice;
    CHECK_FALSE(ngspice.load({"broken", "D1 a 0 missing"}).has_value());
    CHECK_FALSE(ngspice.command("nonsense").has_value());
    REQUIRE(ngspice.load({"whole", "V1 a 0 DC 1", "R1 a 0 1"}).has_value());
    CHECK(ngspice.operating_point().has_value());
}

TEST_CASE("Sixty random networks stand at the potentials ngspice computes", "[ngspice]") {
    for (std::uint64_t start = 0; start < 60; ++start) {
        NetworkKind kind = with_nonlinear_parts(5 + static_cast<int>(start) * 8);
        kind.alternators = 0.5;
        RandomNetwork network = body_electrics(start, kind);
        add_faults(start, static_cast<int>(start % 6), network);
        const auto own = Solver(network.node_count, network.branches).solve();
        REQUIRE(own.has_value());
        const auto theirs = ngspice_potentials(network.node_count, network.branches, own->potential_v);
        INFO("network " << start << ": " << (theirs ? "" : theirs.error()));
        REQUIRE(theirs.has_value());
        for (std::size_t i = 0; i < theirs->size(); ++i)
            REQUIRE(std::abs(own->potential_v[i] - (*theirs)[i]) <= 1e-5);
    }
}
