#include <catch2/catch.hpp>

#include "engine/tracing/trace.h"
#include "tests/tracing/bench.h"
#include "tests/tracing/names.h"
#include "tests/tracing/traced.h"
#include "tests/tracing/two_lamps.h"

// What is expected here follows from each small circuit by putting a finger on it: common practice.

namespace halfsplit::tracing {

using test::Bench;
using test::lost_ground;
using test::names;
using test::traced;
using test::two_lamps;
using Names = std::vector<std::string>;

namespace {

/// A motor between two changeover relays, both at rest on the ground side.
Bench reversed_motor() {
    Bench bench;
    bench.battery();
    bench.fuse("F1");
    bench.part("J1", "X");
    bench.part("J9", "X");
    bench.ground_point("E2");
    bench.part("M1", "M", {"1", "2"});
    bench.element("M1", "armature", "1", "2", model::RunningMotor{0.9, 1, 1.1, 12});
    bench.wire("W1", "G1.+", "F1.1");
    bench.wire("W2", "F1.2", "J1");
    bench.wire("W9", "J9", "E2");
    for (const std::string relay : {"K1", "K2"}) {
        bench.part(relay, "K", {"30", "87", "87a"});
        bench.contact(relay, "30-87", "30", "87", {1});
        bench.contact(relay, "30-87a", "30", "87a", {0});
        bench.wire(relay + "feed", "J1", relay + ".87");
        bench.wire(relay + "ground", relay + ".87a", "J9");
    }
    bench.wire("W5", "K1.30", "M1.1");
    bench.wire("W6", "K2.30", "M1.2");
    return bench;
}

}  // namespace

TEST_CASE("A lamp's feed runs through its own switch and fuse to the battery, its ground to the body") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    const Trace found = traced(bench, "H1");
    CHECK(names(found.sides.to_supply) == Names{"W5 S1.1-2 W3 W2 F1.wire W1"});
    CHECK(names(found.sides.to_ground) == Names{"W7 W9 E2.joint"});
    CHECK(found.sides.to_supply.front().end == "G1.+");
    CHECK(found.sides.to_ground.front().end == "body");
    CHECK_FALSE(found.sides.to_supply.front().interrupted);
    CHECK(names(found.body_return) == Names{"E1.joint W0"});
    CHECK(found.body_return.front().end == "G1.-");
}

TEST_CASE("Each step has its points, colour, size, volts and amperes") {
    const Bench bench = lost_ground();
    const Trace found = traced(bench, "H1");
    const Step& step = found.sides.to_supply.front().steps.front();
    CHECK(step.from == "H1.1");
    CHECK(step.to == "S1.2");
    CHECK(step.colour == "GN");
    CHECK(step.area_mm2 == 1);
    CHECK(step.to_v == 12);
    CHECK(step.current_a == Approx(0.9));  // comes from the supply, so it counts as positive
    CHECK(step.role == Role::conductor);
    CHECK(found.sides.to_supply.front().steps[1].role == Role::contact);
    CHECK(found.sides.to_supply.front().steps[4].role == Role::protection);
}

TEST_CASE("Where a switch is open the way as wired is shown, the switch marked open") {
    const Bench bench = two_lamps();
    const Trace found = traced(bench, "H1");
    REQUIRE(names(found.sides.to_supply) == Names{"W5 S1.1-2 W3 W2 F1.wire W1"});
    const Path& path = found.sides.to_supply.front();
    CHECK(path.interrupted);
    for (const Step& step : path.steps) CHECK(step.conducts == (step.name != "S1.1-2"));
}

TEST_CASE("A pin of a lamp gets to its other side through that lamp and no other") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.put("S2", 1);
    CHECK(names(traced(bench, "H1.1").sides.to_ground) == Names{"H1.filament W7 W9 E2.joint"});
    CHECK(names(traced(bench, "H1.2").sides.to_supply) == Names{"H1.filament W5 S1.1-2 W3 W2 F1.wire W1"});
}

TEST_CASE("A splice gets to ground through each load it feeds and to supply through each load it grounds") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.put("S2", 1);
    CHECK(names(traced(bench, "J1").sides.to_supply) == Names{"W2 F1.wire W1"});
    CHECK(names(traced(bench, "J1").sides.to_ground) == Names{"W3 S1.1-2 W5 H1.filament W7 W9 E2.joint",
                                                              "W4 S2.1-2 W6 H2.filament W8 W9 E2.joint",
                                                              "W4 S2.1-2 W6 W10 H3.filament W11 E3.joint"});
    CHECK(names(traced(bench, "J9").sides.to_ground) == Names{"W9 E2.joint"});
    CHECK(names(traced(bench, "J9").sides.to_supply) ==
          Names{"W7 H1.filament W5 S1.1-2 W3 W2 F1.wire W1", "W8 H2.filament W6 S2.1-2 W4 W2 F1.wire W1"});
}

TEST_CASE("A wire gets to ground only through what hangs on it, not through the loads beside it") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.put("S2", 1);
    const Trace found = traced(bench, "W3");
    CHECK(names(found.sides.to_supply) == Names{"W2 F1.wire W1"});
    CHECK(names(found.sides.to_ground) == Names{"S1.1-2 W5 H1.filament W7 W9 E2.joint"});
}

TEST_CASE("A fuse's own terminals lead to the supply on one side and to all it feeds on the other") {
    Bench bench = two_lamps();
    bench.put("S2", 1);
    const Trace found = traced(bench, "F1");
    CHECK(names(found.sides.to_supply) == Names{"W1"});
    CHECK(names(found.sides.to_ground) == Names{"W2 W4 S2.1-2 W6 H2.filament W8 W9 E2.joint",
                                                "W2 W4 S2.1-2 W6 W10 H3.filament W11 E3.joint"});
}

TEST_CASE("A fuse whose loads are switched off shows what it would feed, the switches marked open") {
    const Trace found = traced(two_lamps(), "F1");
    REQUIRE(found.sides.to_ground.size() == 3);
    for (const Path& path : found.sides.to_ground) CHECK(path.interrupted);
}

TEST_CASE("Plug contacts lie on the way, from the part's own pin to the harness") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.part("H1", "E", {"1", "2"});
    bench.plug("H1");
    bench.element("H1", "filament", "1", "2", model::Filament{12, 21, 0.1});
    bench.wire("W1", "G1.+", "H1.1");
    bench.wire("W2", "H1.2", "E2");
    const Trace found = traced(bench, "H1");
    CHECK(names(found.sides.to_supply) == Names{"H1.1 W1"});
    CHECK(names(found.sides.to_ground) == Names{"H1.2 W2 E2.joint"});
    CHECK(found.sides.to_supply.front().steps.front().from == "H1.1@part");
    CHECK(found.sides.to_supply.front().steps.front().to == "H1.1");
    CHECK(found.sides.to_supply.front().steps.front().role == Role::connection);
}

TEST_CASE("A reversed motor is traced through the relay contacts that are closed") {
    Bench bench = reversed_motor();
    bench.put("K1", 1);
    const Trace found = traced(bench, "M1");
    CHECK(names(found.sides.to_supply) == Names{"W5 K1.30-87 K1feed W2 F1.wire W1"});
    CHECK(names(found.sides.to_ground) == Names{"W6 K2.30-87a K2ground W9 E2.joint"});
    const Trace pin = traced(bench, "M1.1");
    CHECK(names(pin.sides.to_ground) == Names{"M1.armature W6 K2.30-87a K2ground W9 E2.joint"});
}

TEST_CASE("As wired no path takes two contacts of a relay that are never closed together") {
    const Bench bench = reversed_motor();
    // Through 87a and 87 of either relay the ground splice would be joined to the feed.
    CHECK(traced(bench, "J9", Extent::as_wired).sides.to_supply.size() == 2);
    for (const Path& path : traced(bench, "J9", Extent::as_wired).sides.to_supply)
        CHECK(path.loads == std::vector<int>{bench.circuit.find_pin("M1.1")->part});
    CHECK(names(traced(bench, "M1", Extent::as_wired).sides.to_supply) ==
          Names{"W5 K1.30-87 K1feed W2 F1.wire W1", "W6 K2.30-87 K2feed W2 F1.wire W1"});
}

TEST_CASE("A diode is a way from its anode to its cathode only") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.part("R1", "R", {"A", "K"});
    bench.element("R1", "junction", "A", "K", model::Junction{1e-12, 0.05});
    bench.lamp("H1");
    bench.wire("W1", "G1.+", "R1.A");
    bench.wire("W2", "R1.K", "H1.1");
    bench.wire("W3", "H1.2", "E2");
    CHECK(names(traced(bench, "H1").sides.to_supply) == Names{"W2 R1.junction W1"});
    Bench turned;
    turned.battery();
    turned.ground_point("E2");
    turned.part("R1", "R", {"A", "K"});
    turned.element("R1", "junction", "K", "A", model::Junction{1e-12, 0.05});
    turned.lamp("H1");
    turned.wire("W1", "G1.+", "R1.A");
    turned.wire("W2", "R1.K", "H1.1");
    turned.wire("W3", "H1.2", "E2");
    CHECK(traced(turned, "H1").sides.to_supply.empty());
}

TEST_CASE("Two lamps in series are each other's way") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.lamp("H1");
    bench.lamp("H2");
    bench.wire("W1", "G1.+", "H1.1");
    bench.wire("W2", "H1.2", "H2.1");
    bench.wire("W3", "H2.2", "E2");
    CHECK(names(traced(bench, "H1").sides.to_ground) == Names{"W2 H2.filament W3 E2.joint"});
}

TEST_CASE("A wire chafed to the body shows as a way to ground of its own") {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.leak("short-to-ground:W5", "S1.2", "body");
    CHECK(names(traced(bench, "H1").sides.to_ground) == Names{"W5 short-to-ground:W5", "W7 W9 E2.joint"});
}

TEST_CASE("The ways between two points are listed, and what is not there is said") {
    Bench bench = two_lamps();
    const auto found = trace_between(bench.circuit, bench.network, bench.point, "F1.2", "H2");
    REQUIRE(found);
    CHECK(names(found->paths) == Names{"W2 W4 S2.1-2 W6"});
    CHECK(found->paths.front().interrupted);
    CHECK_FALSE(trace(bench.circuit, bench.network, bench.point, "H7", {}));
    CHECK_FALSE(trace_between(bench.circuit, bench.network, bench.point, "F1", "H1.3"));
}

}  // namespace halfsplit::tracing
