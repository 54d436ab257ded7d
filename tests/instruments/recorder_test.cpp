#include "engine/instruments/recorder.h"

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
