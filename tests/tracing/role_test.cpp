#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/tracing/role.h"
#include "tests/support/circuit_text.h"
#include "tests/tracing/bench.h"

namespace halfsplit::tracing {

using test::Bench;

// Letters: IEC 81346-2, as the part kinds use them by habit.
TEST_CASE("What a branch is follows from its law and its part's letter") {
    Bench bench;
    bench.battery();
    bench.fuse("F1");
    bench.lamp("H1");
    bench.on_off_switch("S1");
    bench.part("K1", "K", {"85", "86"});
    bench.element("K1", "coil", "86", "85", model::Resistance{85});
    bench.part("R1", "R", {"1", "2"});
    bench.element("R1", "resistance", "1", "2", model::Resistance{1.5});
    bench.part("V1", "V", {"A", "K"});
    bench.element("V1", "junction", "A", "*inside", model::Junction{1e-12, 0.05});
    bench.element("V1", "bulk", "*inside", "K", model::Resistance{0.02});
    bench.part("H2", "E", {"1", "2"});
    bench.element("H2", "diodes", "1", "2", model::Junction{1e-12, 0.2});
    bench.part("A5", "A", {"31", "31b", "in"});
    bench.element("A5", "ground-31b", "31b", "31", model::Resistance{0.01});
    bench.element("A5", "pull-down", "in", "31", model::Resistance{10000});
    bench.leak("wet:X1.1", "R1.1", "H2.1");
    const Wiring wiring = bench.wiring();
    const auto role = [&](const char* name) { return wiring.role(bench.branch(name)); };
    CHECK(role("G1.cells") == Role::source);
    CHECK(role("E1.joint") == Role::conductor);
    CHECK(role("W0") == Role::conductor);
    CHECK(role("F1.wire") == Role::protection);
    CHECK(role("H1.filament") == Role::load);
    CHECK(role("S1.1-2") == Role::contact);
    CHECK(role("K1.coil") == Role::load);
    CHECK(role("R1.resistance") == Role::resistor);
    CHECK(role("V1.junction") == Role::valve);
    CHECK(role("V1.bulk") == Role::conductor);
    CHECK(role("H2.diodes") == Role::load);
    CHECK(role("A5.ground-31b") == Role::conductor);
    CHECK(role("A5.pull-down") == Role::load);
    CHECK(role("wet:X1.1") == Role::fault);
}

// By hand: R3 is the instruments' own consumption, from F4 to ground; R2 lies in series with the fan.
TEST_CASE("A resistor is a load where its author says that it stands for one") {
    const auto role_in = [](const char* file, const std::string& name) {
        const model::Circuit circuit = test::circuit_file(file);
        const auto network = network::build_network(circuit, {});
        REQUIRE(network);
        const auto branch = std::ranges::find(network->branches, name, &network::NetworkBranch::name);
        REQUIRE(branch != network->branches.end());
        return role_of(circuit, *branch);
    };
    CHECK(role_in("circuits/interior-light.circuit.xml", "R3.resistance") == Role::load);
    CHECK(role_in("circuits/radiator-fan.circuit.xml", "R2.resistance") == Role::resistor);
}

TEST_CASE("A voltmeter ends a path and a jumper lead is one") {
    Bench bench;
    bench.lamp("H1");
    bench.leak("instrument", "H1.1", "H1.2");
    network::NetworkBranch instrument = bench.network.branches.back();
    instrument.source = network::BranchSource::instrument;
    instrument.electrical.law = model::Resistance{10e6};
    CHECK(role_of(bench.circuit, instrument) == Role::load);
    instrument.electrical.law = model::Resistance{0.03};
    CHECK(role_of(bench.circuit, instrument) == Role::conductor);
}

TEST_CASE("The two sides of a half-bridge are never a way from supply to ground") {
    Bench bench;
    bench.battery();
    bench.part("A5", "A", {"30", "31", "out"});
    bench.contact("A5", "driver-out-high", "30", "out", {-1});
    bench.contact("A5", "driver-out-low", "out", "31", {-1});
    bench.contact("A5", "driver-other", "30", "31", {-1});
    const Wiring wiring = bench.wiring();
    CHECK(wiring.exclude_each_other(bench.branch("A5.driver-out-high"), bench.branch("A5.driver-out-low")));
    CHECK_FALSE(
        wiring.exclude_each_other(bench.branch("A5.driver-out-high"), bench.branch("A5.driver-other")));
}

TEST_CASE("An alternator that stands still is no supply") {
    Bench bench;
    bench.battery();
    bench.part("G2", "G", {"B+"});
    bench.element("G2", "output", "B+", "body", model::RegulatedSource{14.2, 0.02, 90}, {1});
    CHECK_FALSE(bench.wiring().supplies()[static_cast<std::size_t>(bench.node("G2.B+"))]);
    bench.put("G2", 1);
    CHECK(bench.wiring().supplies()[static_cast<std::size_t>(bench.node("G2.B+"))]);
}

}  // namespace halfsplit::tracing
