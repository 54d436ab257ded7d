#include "engine/instruments/live_recorder.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "tests/support/circuit_text.h"

using namespace halfsplit;

namespace {

/// 10 V behind 100 kilohm, switched on by S1, at point R1.2.
model::Circuit high_ohm_circuit() {
    return test::circuit_of(
        "<battery id='G1' open-circuit-v='10' internal-ohm='0.001' plug='none'/><ground-point id='E1' "
        "ohm='0.0001'/><switch id='S1' plug='none'><pin id='1'/><pin id='2'/><position id='off'/><position "
        "id='on'><contact from='1' to='2'/></position></switch><resistor id='R1' plug='none' ohm='100000'/>"
        "<splice id='J1'/>",
        "<wire id='W0' from='G1.-' to='E1' ohm='0.0001'/><wire id='W1' from='G1.+' to='S1.1' ohm='0.0001'/>"
        "<wire id='W2' from='S1.2' to='R1.1' ohm='0.0001'/><wire id='W3' from='R1.2' to='J1' ohm='0.0001'/>");
}

}  // namespace

// By hand: the recorder's megohm and the 100 kilohm divide 10 V to 9.0909 V; the
// leakage of 1 nS at each node takes some tenths of a percent of the megohm.
TEST_CASE("A recorder loads what it is connected to, and keeps the extremes") {
    const auto circuit = high_ohm_circuit();
    const std::vector<instruments::Channel> channels{*instruments::channel_for(circuit, "R1.2"),
                                                     *instruments::channel_for(circuit, "W2")};
    const auto at_rest = test::settled(circuit);
    network::Situation probed = at_rest.situation;
    instruments::connect(channels, probed);
    const auto connected = simulation::settle_again(circuit, at_rest, probed);
    REQUIRE(connected);
    auto course =
        simulation::Course::begin(circuit, *connected, {{1, "S1", "on", 0, {}}, {2, "S1", "off", 0, {}}});
    REQUIRE(course);
    const auto recording = instruments::record(*course, channels, 0.25, 3);
    REQUIRE(recording);
    REQUIRE(recording->rows.size() == 13);
    CHECK(recording->time_s.back() == 3);
    CHECK(recording->most[0] == Approx(10 * 1e6 / 1.1e6).epsilon(4e-3));
    CHECK(recording->least[0] == Approx(0).margin(1e-6));
    CHECK(std::abs(recording->rows[6][1]) == Approx(10 / 1.1e6).epsilon(4e-3));
}

TEST_CASE("A channel that leads nowhere is refused with what could have been meant") {
    const auto circuit = high_ohm_circuit();
    CHECK(instruments::channel_for(circuit, "R1.2")->is_current == false);
    CHECK(instruments::channel_for(circuit, "R1.resistance")->is_current);
    const auto refused = instruments::channel_for(circuit, "R1.3");
    REQUIRE_FALSE(refused);
    CHECK_THAT(refused.error(), Catch::Contains("R1.3"));
}

// By hand: across the 100 kilohm lies the recorder's megohm too, 90.909 kilohm together, in series with the
// megohm of the other channel: of 10 V there drop 0.8333 V.
TEST_CASE("A channel between two points shows what is between them, and loads it") {
    const auto circuit = high_ohm_circuit();
    auto bench = instruments::LiveBench::begin(circuit, -1, {});
    REQUIRE(bench);
    instruments::LiveRecorder recorder;
    REQUIRE(recorder.put_on(*bench, {"R1.2"}));
    REQUIRE(recorder.put_on(*bench, {"R1.1", false, "R1.2"}));
    CHECK_FALSE(recorder.put_on(*bench, {"R1.2"}));
    CHECK_FALSE(recorder.put_on(*bench, {"R1.1", false, "R1.1"}));
    REQUIRE(bench->set("S1", "on"));
    REQUIRE(recorder.advance(*bench, 0.1));
    const instruments::Strip& strip = recorder.strip();
    CHECK(instruments::value_at(strip, 1, 0.05) == Approx(10 * 90.909 / 1090.909).epsilon(4e-3));
    CHECK(instruments::value_at(strip, 0, 0.05) == Approx(10 * 1000 / 1090.909).epsilon(4e-3));
    CHECK(std::isnan(instruments::value_at(strip, 0, 0.2)));
    REQUIRE(recorder.take_off(*bench, 0));
    CHECK(bench->situation().attachments.size() == 1);
    CHECK(recorder.strip().channels.front().against == "R1.2");
}

TEST_CASE("A recorder at a bench keeps the last minute and no more than a little beyond") {
    const auto circuit = high_ohm_circuit();
    auto bench = instruments::LiveBench::begin(circuit, -1, {});
    REQUIRE(bench);
    instruments::LiveRecorder recorder;
    REQUIRE(recorder.put_on(*bench, {"R1.2"}));
    for (int i = 0; i < 100; ++i) REQUIRE(recorder.advance(*bench, 1));
    const instruments::Strip& strip = recorder.strip();
    CHECK(strip.time_s.back() == Approx(100));
    CHECK(strip.time_s.front() <= 40);
    CHECK(strip.time_s.front() >= 25);
    CHECK(strip.values[0].size() == strip.time_s.size());
}
