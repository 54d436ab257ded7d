#include <catch2/catch.hpp>

#include "tests/support/chart_player.h"

// Assertions of W3C SCXML (Recommendation, 1 September 2015) in our own charts; clause numbers from memory.

namespace halfsplit::simulation {
namespace {

using test::ChartPlayer;

/// Logs every event it gets.
const std::string kListener = "<transition event=\"*\"><log expr=\"_event\"/></transition>";

}  // namespace

TEST_CASE("Internal events are processed before external ones, each queue in its order") {
    // SCXML 3.13, 4.2: raise puts into the internal queue; 6.2: send to the session itself into the external
    // one.
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"s1\"/><raise event=\"r1\"/><send event=\"s2\"/>"
        "<raise event=\"r2\"/></onentry>" +
        kListener + "</state>");
    CHECK(player.log() == "r1 r2 s1 s2");
}

TEST_CASE("Internal events an external one causes come before the next external one") {
    ChartPlayer player(
        "<state id=\"a\"><transition event=\"x\"><raise event=\"r\"/><log label=\"x\"/></transition>" +
        kListener + "</state>");
    raise_event(player.state, "x");
    raise_event(player.state, "y");
    player.act();
    CHECK(player.log() == "x r y");
}

TEST_CASE("_event keeps the name of the last event until the next") {
    // SCXML 5.10.1: bound when the event is taken off its queue, kept until the next one.
    ChartPlayer player(R"(<state id="a"><onentry><log expr="_event == ''"/></onentry>
<transition event="e.f" target="b"/></state>
<state id="b"><onentry><log expr="_event"/></onentry><transition cond="_event == 'e.f'" target="c"/></state>
<state id="c"/>)");
    player.send("e.f");
    CHECK(player.log() == "true e.f");
    CHECK(player.active() == "c");
}

TEST_CASE("Delayed events come when they are due, those due at once in the order of sending") {
    // SCXML 6.2: delay and delayexpr.
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"c\" delay=\"2s\"/><send event=\"a\" delay=\"500ms\"/>"
        "<send event=\"d\" delayexpr=\"1 + 1\"/><send event=\"b\" delay=\"1.5s\"/><send event=\"now\" "
        "delay=\"0s\"/>"
        "</onentry>" +
        kListener + "</state>");
    CHECK(player.log() == "now");
    CHECK(next_timer_s(player.state) == 0.5);
    player.run_to(0.4);
    CHECK_FALSE(player.wants_to_act());
    CHECK(player.log().empty());
    player.now_s = 0.5;
    CHECK(player.wants_to_act());
    player.run_to(1.9);
    CHECK(player.log() == "a b");
    player.run_to(2);
    CHECK(player.log() == "c d");
    CHECK_FALSE(next_timer_s(player.state));
}

TEST_CASE("A late call processes all delayed events in the order they were due") {
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"c\" delay=\"3s\"/><send event=\"b\" delay=\"2s\"/>"
        "<send event=\"a\" delay=\"1s\"/></onentry>" +
        kListener + "</state>");
    player.now_s = 10;
    player.act();
    CHECK(player.log() == "a b c");
}

TEST_CASE("External events that wait come before delayed ones that are due now") {
    ChartPlayer player("<state id=\"a\"><onentry><send event=\"timer\" delay=\"1s\"/></onentry>" + kListener +
                       "</state>");
    raise_event(player.state, "pin");
    player.now_s = 1;
    player.act();
    CHECK(player.log() == "pin timer");
}

TEST_CASE("Cancel takes back every delayed event of its id and no other") {
    // SCXML 6.3.
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"a\" delay=\"1s\" id=\"x\"/>"
        "<send event=\"b\" delay=\"2s\"/><send event=\"c\" delay=\"3s\" id=\"x\"/>"
        "<send event=\"d\" delay=\"4s\" id=\"y\"/></onentry>"
        "<transition event=\"stop\"><cancel sendid=\"x\"/><cancel sendid=\"unknown\"/></transition>" +
        kListener + "</state>");
    player.send("stop");
    player.run_to(5);
    CHECK(player.log() == "b d");
}

TEST_CASE("An event that has come cannot be taken back") {
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"a\" id=\"x\"/><cancel sendid=\"x\"/></onentry>" + kListener +
        "</state>");
    CHECK(player.log() == "a");
}

TEST_CASE("Delayed events outlive the state that sent them") {
    // SCXML 6.2: the event is sent by the session, whatever state it is in by then.
    ChartPlayer player(
        "<state id=\"a\"><onentry><send event=\"late\" delay=\"1s\"/></onentry>"
        "<transition event=\"go\" target=\"b\"/></state><state id=\"b\">" +
        kListener + "</state>");
    player.send("go");
    player.run_to(1);
    CHECK(player.log() == "late");
}

TEST_CASE("A delay too short for the clock is over at once") {
    // 1000 s and 1e-30 s are one double: the event would otherwise wait for the next call.
    ChartPlayer player(R"(<state id="a"><transition event="go" target="b"/></state>
<state id="b"><transition target="c"><send event="soon" delay="1e-30s"/></transition></state>
<state id="c"><transition event="soon" target="d"/></state><state id="d"/>)");
    player.now_s = 1000;
    player.send("go");
    CHECK(player.active() == "d");
    CHECK_FALSE(player.wants_to_act());
}

TEST_CASE("A timer that sends itself again keeps its rhythm") {
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><onentry><send event="tick" delay="250ms"/></onentry>
<transition event="tick" target="a"><assign location="n" expr="n + 1"/></transition></state>)");
    player.run_to(10);
    CHECK(std::get<double>(player.state.data.front()) == 40);
}

TEST_CASE("A copy of the state goes on exactly as the original") {
    ChartPlayer player("<state id=\"a\"><onentry><send event=\"x\" delay=\"1s\"/></onentry>" + kListener +
                       "</state>");
    ChartPlayer copy(player);
    player.run_to(2);
    CHECK(player.log() == "x");
    CHECK(copy.log().empty());
    copy.run_to(2);
    CHECK(copy.log() == "x");
}

}  // namespace halfsplit::simulation
