#include <catch2/catch.hpp>

#include "engine/tracing/live_path.h"
#include "engine/tracing/trace.h"
#include "tests/tracing/names.h"
#include "tests/tracing/traced.h"
#include "tests/tracing/two_lamps.h"

// Currents are those Kirchhoff's laws give for the circuits as drawn in tests/tracing/two_lamps.h.

namespace halfsplit::tracing {

using test::Bench;
using test::lost_ground;
using test::names;
using test::traced;
using test::two_lamps;

namespace {

const std::string kBackRoute =
    "W1 F1.wire W2 W3 S1.1-2 W5 H1.filament W7 W8 H2.filament W10 H3.filament "
    "W11 E3.joint";

/// Both switches closed and everything sound; H1 takes 1 A, H2 1.5 A, H3 0.5 A.
Bench both_lit() {
    Bench bench = two_lamps();
    bench.put("S1", 1);
    bench.put("S2", 1);
    for (const char* common : {"W1", "F1.wire", "W2"}) bench.carries(common, 3);
    for (const char* first : {"W3", "S1.1-2", "W5", "H1.filament", "W7"}) bench.carries(first, 1);
    for (const char* second : {"W4", "S2.1-2", "W6"}) bench.carries(second, 2);
    for (const char* own : {"H2.filament", "W8"}) bench.carries(own, 1.5);
    for (const char* third : {"W10", "H3.filament", "W11", "E3.joint"}) bench.carries(third, 0.5);
    for (const char* shared : {"W9", "E2.joint"}) bench.carries(shared, 2.5);
    for (const char* back : {"W0", "E1.joint", "G1.cells"}) bench.carries(back, -3);
    return bench;
}

}  // namespace

TEST_CASE("The live path of a lamp runs from the battery through it to the body") {
    const Trace found = traced(both_lit(), "H3");
    REQUIRE(found.live);
    CHECK(names(*found.live) == "W1 F1.wire W2 W4 S2.1-2 W6 W10 H3.filament W11 E3.joint");
    CHECK(found.live->start == "G1.+");
    CHECK(found.live->end == "body");
    CHECK(found.back_feeds.empty());
}

TEST_CASE("At a splice the live path follows the larger current") {
    const Trace found = traced(both_lit(), "F1");
    REQUIRE(found.live);
    CHECK(names(*found.live) == "W1 F1.wire W2 W4 S2.1-2 W6 H2.filament W8 W9 E2.joint");
}

TEST_CASE("What carries nothing has no live path") {
    Bench bench = two_lamps();
    CHECK_FALSE(traced(bench, "H1").live);
    bench.carries("H1.filament", 1e-6);  // what a voltmeter of 10 megohm would draw
    CHECK_FALSE(traced(bench, "H1").live);
}

TEST_CASE("With the shared ground lost the live path shows the odd way through the other lamps") {
    const Trace found = traced(lost_ground(), "H1");
    REQUIRE(found.live);
    CHECK(names(*found.live) == kBackRoute);
    CHECK(names(*traced(lost_ground(), "H2.2").live) == kBackRoute);
    CHECK(found.live->loads.size() == 3);
}

TEST_CASE("A lost ground is reported as a back-feed of the lamp that carries current the wrong way") {
    const std::vector<BackFeed> found = traced(lost_ground(), "H1").back_feeds;
    REQUIRE(found.size() == 1);
    CHECK(found[0].load == "H2");
    CHECK(found[0].current_a == Approx(0.9));
    CHECK(found[0].enters_at_ground_side);
    CHECK(found[0].leaves_at_feed_side);
    CHECK(found[0].through == std::vector<std::string>{"H1", "H3"});
    CHECK(found[0].open_to_ground == std::vector<std::string>{"W9"});
    CHECK(found[0].open_to_supply == std::vector<std::string>{"S2.1-2"});
    CHECK(names(found[0].route) == kBackRoute);
}

TEST_CASE("What two grounds that are not quite alike exchange through a lamp is no back-feed") {
    Bench bench = lost_ground();
    bench.reads("H2.2", 0.011);
    bench.reads("H2.1", 0.010);
    CHECK(traced(bench, "H1").back_feeds.empty());
}

TEST_CASE("Two lamps meant to be in series are no back-feed") {
    Bench bench;
    bench.battery();
    bench.ground_point("E2");
    bench.lamp("H1");
    bench.lamp("H2");
    bench.wire("W1", "G1.+", "H1.1");
    bench.wire("W2", "H1.2", "H2.1");
    bench.wire("W3", "H2.2", "E2");
    for (const char* name : {"W1", "H1.filament", "W2", "H2.filament", "W3", "E2.joint"})
        bench.carries(name, 0.8);
    CHECK(traced(bench, "H1").back_feeds.empty());
    CHECK(names(*traced(bench, "W2").live) == "W1 H1.filament W2 H2.filament W3 E2.joint");
}

TEST_CASE("A battery that is charged is followed back to the alternator") {
    Bench bench;
    bench.battery();
    bench.part("G2", "G", {"B+"});
    bench.element("G2", "output", "B+", "body", model::RegulatedSource{14.2, 0.02, 90});
    bench.wire("W1", "G2.B+", "G1.+");
    bench.carries("W1", 10);
    bench.carries("G1.cells", 10);
    bench.carries("W0", 10);
    bench.carries("E1.joint", 10);
    bench.carries("G2.output", -10);
    CHECK(names(*traced(bench, "G1").live) == "W1");
    CHECK(names(*traced(bench, "G2").live) == "W1");
}

}  // namespace halfsplit::tracing
