#include <catch2/catch.hpp>

#include "tests/support/chart_player.h"

// Assertions of W3C SCXML (Recommendation, 1 September 2015) in our own charts; clause numbers from memory.

namespace halfsplit::simulation {
namespace {

using test::ChartPlayer;

/// A state that logs "+id" on entry and "-id" on exit.
std::string logged(const std::string& element, const std::string& id, const std::string& inside = "",
                   const std::string& attributes = "") {
    return "<" + element + " id=\"" + id + "\" " + attributes + "><onentry><log label=\"+" + id +
           "\"/></onentry><onexit><log label=\"-" + id + "\"/></onexit>" + inside + "</" + element + ">\n";
}

std::string state(const std::string& id, const std::string& inside = "", const std::string& attributes = "") {
    return logged("state", id, inside, attributes);
}

std::string on(const std::string& event, const std::string& target) {
    return "<transition event=\"" + event + "\" target=\"" + target + "\"><log label=\"" + event +
           "\"/></transition>";
}

}  // namespace

TEST_CASE("Without initial the first state in the order of the file is entered, and its first inside") {
    // SCXML 3.2, 3.3.
    ChartPlayer player(state("a", state("a1", state("a11") + state("a12")) + state("a2")) + state("b"));
    CHECK(player.active() == "a a1 a11");
    CHECK(player.log() == "+a +a1 +a11");
}

TEST_CASE("The initial attribute may name a state further inside") {
    // SCXML 3.2, 3.3: initial may be any descendant; the states between are entered.
    ChartPlayer deep(state("a") + state("b", state("b1") + state("b2", state("b21") + state("b22"))),
                     "initial=\"b22\"");
    CHECK(deep.log() == "+b +b2 +b22");
    ChartPlayer nested(state("a", state("a1") + state("a2", state("a21") + state("a22")), "initial=\"a22\""));
    CHECK(nested.log() == "+a +a2 +a22");
}

TEST_CASE("Actions of the initial element come between entering the state and its child") {
    // SCXML 3.6 and appendix D, enterStates.
    ChartPlayer player(state("a",
                             "<initial><transition target=\"a2\"><log label=\"initial\"/></transition>"
                             "</initial>" +
                                 state("a1") + state("a2")) +
                       state("b", on("to-a1", "a1")));
    CHECK(player.log() == "+a initial +a2");
    // They are not done where a transition names the child.
    ChartPlayer named("<state id=\"b\"><transition event=\"go\" target=\"a1\"/></state>" +
                      state("a",
                            "<initial><transition target=\"a2\"><log label=\"initial\"/></transition>"
                            "</initial>" +
                                state("a1") + state("a2")));
    named.send("go");
    CHECK(named.log() == "+a +a1");
}

TEST_CASE("Blocks of entry and exit are done in the order of the file") {
    // SCXML 3.8, 3.9.
    ChartPlayer player(R"(<state id="a"><onexit><log label="3"/></onexit><onentry><log label="1"/></onentry>
<onexit><log label="4"/></onexit><onentry><log label="2"/></onentry><transition event="e" target="b"/></state>
<state id="b"/>)");
    player.send("e");
    CHECK(player.log() == "1 2 3 4");
}

TEST_CASE("States are left from the inside out, then the transition acts, then states are entered") {
    // SCXML 3.13: exit order, content of the transition, entry order.
    ChartPlayer player(state("a", state("a1", state("a11", on("go", "b11")))) +
                       state("b", state("b1", state("b10") + state("b11"))));
    player.log();
    player.send("go");
    CHECK(player.log() == "-a11 -a1 -a go +b +b1 +b11");
    CHECK(player.active() == "b b1 b11");
}

TEST_CASE("All regions of a parallel state are entered in the order of the file and left in reverse") {
    // SCXML 3.4 and appendix D: entry order is document order, exit order its reverse.
    ChartPlayer player(
        logged("parallel", "p", state("r", state("r1")) + state("s", state("s1")) + on("out", "end")) +
        state("end"));
    CHECK(player.log() == "+p +r +r1 +s +s1");
    CHECK(player.active() == "p r r1 s s1");
    player.send("out");
    CHECK(player.log() == "-s1 -s -r1 -r -p out +end");
}

TEST_CASE("A list of targets enters several regions, the others by default") {
    // SCXML 3.11, 3.13: targets are completed with ancestors and default descendants.
    const std::string regions =
        logged("parallel", "p",
               state("r", state("r1") + state("r2")) + state("s", state("s1") + state("s2")) +
                   state("t", state("t1") + state("t2")));
    ChartPlayer player(regions, "initial=\"s2 r2\"");
    CHECK(player.log() == "+p +r +r2 +s +s2 +t +t1");
    ChartPlayer by_transition(state("a", on("go", "t2 r2")) + regions);
    by_transition.log();
    by_transition.send("go");
    CHECK(by_transition.log() == "-a go +p +r +r2 +s +s1 +t +t2");
    // One region may be named by its own id, another one deep inside.
    ChartPlayer mixed(regions, "initial=\"r s2\"");
    CHECK(mixed.log() == "+p +r +r1 +s +s2 +t +t1");
}

TEST_CASE("A transition to a state inside a region of a parallel state enters the other regions too") {
    ChartPlayer player(
        state("a", on("go", "s2")) +
        logged("parallel", "p", state("r", state("r1")) + state("s", state("s1") + state("s2"))));
    player.log();
    player.send("go");
    CHECK(player.log() == "-a go +p +r +r1 +s +s2");
}

TEST_CASE("Entering a final state announces its parent as done") {
    // SCXML 3.7: done.state.ID is raised internally, after the entry actions of the final state.
    ChartPlayer player(
        state("a", state("a1", on("go", "a2")) + logged("final", "a2") + on("done.state.a", "b")) +
        state("b"));
    player.log();
    player.send("go");
    CHECK(player.log() == "-a1 go +a2 -a2 -a done.state.a +b");
}

TEST_CASE("A parallel state is done when the last of its regions is") {
    // SCXML 3.7: done.state of the region first, then that of the parallel state.
    ChartPlayer player(logged("parallel", "p",
                              state("r", state("r1", on("r", "rf")) + logged("final", "rf")) +
                                  state("s", state("s1", on("s", "sf")) + logged("final", "sf")) +
                                  "<transition event=\"done.state.*\"><log expr=\"_event\"/></transition>"));
    player.log();
    player.send("r");
    CHECK(player.log() == "-r1 r +rf done.state.r");
    player.send("s");
    CHECK(player.log() == "-s1 s +sf done.state.s done.state.p");
}

TEST_CASE("A parallel state inside a region is done through all its levels") {
    // Appendix D, isInFinalState: a compound state by a final child of its own, a parallel one by all
    // regions.
    ChartPlayer player(
        logged("parallel", "p",
               state("r", logged("parallel", "q",
                                 state("q1", "<final id=\"q1f\"/>") + state("q2", "<final id=\"q2f\"/>"))) +
                   "<transition event=\"done.state\"><log expr=\"_event\"/></transition>"));
    // r has no final child of its own, so neither r nor p is done.
    CHECK(player.log() == "+p +r +q +q1 +q2 done.state.q1 done.state.q2 done.state.q");
}

TEST_CASE("A final state outside all others ends the chart, exit actions included") {
    // SCXML 3.7 and appendix D, exitInterpreter.
    ChartPlayer player(state("a", on("end", "f") + "<onentry><send event=\"late\" delay=\"1s\"/></onentry>") +
                       logged("final", "f"));
    player.send("end");
    CHECK(player.log() == "+a -a end +f -f");
    CHECK(player.state.finished);
    CHECK(player.active().empty());
    CHECK_FALSE(next_timer_s(player.state));
    player.send("end");
    CHECK_FALSE(player.wants_to_act());
    CHECK(player.state.external_events.empty());
    CHECK(player.log().empty());
}

TEST_CASE("In() tells which states are active, also while they are entered and left") {
    // SCXML 5.9.1 (In); appendix D: a state is active from before its entry actions to after its exit
    // actions.
    ChartPlayer player(R"x(<state id="a"><onentry><log expr="In('a') and not In('a1')"/></onentry>
<onexit><log expr="In('a') and not In('a1')"/></onexit>
<state id="a1"><onexit><log expr="In('a1')"/></onexit>
<transition event="e" target="b"><log expr="In('a')"/></transition></state></state>
<state id="b"/>)x");
    CHECK(player.log() == "true");
    player.send("e");
    CHECK(player.log() == "true true false");
}

}  // namespace halfsplit::simulation
