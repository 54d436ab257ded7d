#include <catch2/catch.hpp>

#include "engine/tracing/trace.h"
#include "tests/tracing/traced.h"
#include "tests/tracing/two_lamps.h"

// What is expected follows from the drawing in tests/tracing/two_lamps.h: common practice.

namespace halfsplit::tracing {

using test::Bench;
using test::traced;
using test::two_lamps;
using Names = std::vector<std::string>;

namespace {

Names sharers(const Trace& trace, Common common, const std::string& through) {
    for (const Sharing& each : trace.sharing)
        if (each.common == common && (through.empty() || each.through == through)) return each.loads;
    return {};
}

Names wires(const Bench& bench, const Trace& trace) {
    Names names;
    for (const int wire : trace.protects->wires)
        names.push_back(bench.circuit.wires[static_cast<std::size_t>(wire)].id);
    return names;
}

}  // namespace

TEST_CASE("Lamps on one switched line share a feed, lamps on one splice a ground, all of them the fuse") {
    const Bench bench = two_lamps();
    const Trace first = traced(bench, "H1");
    CHECK(sharers(first, Common::feed, "").empty());
    CHECK(sharers(first, Common::protection, "F1") == Names{"H2", "H3"});
    CHECK(sharers(first, Common::ground, "E2") == Names{"H2"});
    const Trace third = traced(bench, "H3");
    CHECK(sharers(third, Common::feed, "") == Names{"H2"});
    CHECK(sharers(third, Common::protection, "F1") == Names{"H1", "H2"});
    CHECK(sharers(third, Common::ground, "").empty());
}

TEST_CASE("A fuse protects every wire and load behind it, whatever the switches are at") {
    const Bench bench = two_lamps();
    const Trace found = traced(bench, "F1");
    REQUIRE(found.protects);
    CHECK(found.protects->loads == Names{"H1", "H2", "H3"});
    CHECK(wires(bench, found) == Names{"W2", "W3", "W4", "W5", "W6", "W10"});
    CHECK_FALSE(traced(bench, "S1").protects);
}

TEST_CASE("A load with two feeds is protected by neither fuse alone") {
    Bench bench = two_lamps();
    bench.fuse("F2");
    bench.wire("W20", "G1.+", "F2.1");
    bench.wire("W21", "F2.2", "H3.1");
    // With every switch closed the second feed gets back through S2 to the splice, and so to H1 as well.
    CHECK(traced(bench, "F1").protects->loads.empty());
    CHECK(traced(bench, "F2").protects->loads.empty());
    bench.open("W4");  // torn wires count as whole here: they will be repaired
    CHECK(traced(bench, "F1").protects->loads.empty());
}

TEST_CASE("A changeover switch between two fuses makes neither protect the other's wires") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.lamp("H1");
    bench.fuse("F1");
    bench.fuse("F2");
    bench.part("S1", "S", {"1", "2", "3"});
    bench.contact("S1", "1-2", "1", "2", {0});
    bench.contact("S1", "1-3", "1", "3", {1});
    bench.wire("W1", "G1.+", "F1.1");
    bench.wire("W2", "G1.+", "F2.1");
    bench.wire("W3", "F1.2", "S1.2");
    bench.wire("W4", "F2.2", "S1.3");
    bench.wire("W5", "S1.1", "H1.1");
    bench.wire("W6", "H1.2", "E2");
    // Position 2 never joins position 3: without F1 its wire W3 is dead, and the lamp has the other feed.
    CHECK(wires(bench, traced(bench, "F1")) == Names{"W3"});
    CHECK(traced(bench, "F1").protects->loads.empty());
}

TEST_CASE("A relay's coil and what it does are told apart") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.fuse("F1");
    bench.part("K1", "K", {"30", "85", "86", "87"});
    bench.element("K1", "coil", "86", "85", model::Resistance{85});
    bench.contact("K1", "30-87", "30", "87", {1});
    bench.part("J9", "X");
    bench.lamp("H1");
    bench.wire("W1", "G1.+", "F1.1");
    bench.wire("W2", "F1.2", "K1.86");
    bench.wire("W3", "K1.85", "J9");
    bench.wire("W4", "G1.+", "K1.30");
    bench.wire("W5", "K1.87", "H1.1");
    bench.wire("W6", "H1.2", "J9");
    bench.wire("W7", "J9", "E2");
    CHECK(traced(bench, "F1").protects->loads == Names{"K1.coil"});
    CHECK(sharers(traced(bench, "H1"), Common::ground, "E2") == Names{"K1.coil"});
}

}  // namespace halfsplit::tracing
