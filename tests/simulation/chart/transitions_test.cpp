#include <catch2/catch.hpp>

#include "engine/simulation/chart/select_transitions.h"
#include "tests/support/chart_player.h"

// Assertions of W3C SCXML (Recommendation, 1 September 2015) in our own charts; clause numbers from memory.

namespace halfsplit::simulation {
namespace {

using test::ChartPlayer;

}  // namespace

TEST_CASE("Descriptors match whole tokens from the front") {
    // SCXML 3.12.1, with its own examples: "error foo" is matched by error, error.send, foo, foo.bar, not by
    // errors or foobar.
    CHECK(matches("foo", "foo"));
    CHECK(matches("foo", "foo.bar"));
    CHECK(matches("foo", "foo.bar.baz"));
    CHECK_FALSE(matches("foo", "foobar"));
    CHECK_FALSE(matches("foo.bar", "foo"));
    CHECK_FALSE(matches("foo", "a.foo"));
    CHECK_FALSE(matches("foo", "Foo"));
    CHECK(matches("*", "anything.at.all"));

    ChartPlayer player(R"(<state id="a"><transition event="error foo.* x."><log expr="_event"/></transition>
<transition event="*"><log label="other"/></transition></state>)");
    for (const char* event : {"error", "error.send", "foo", "foo.bar", "x.y", "errors", "foobar", "y.x"})
        player.send(event);
    CHECK(player.log() == "error error.send foo foo.bar x.y other other other");
}

TEST_CASE("The first transition of a state that fits is taken, in the order of the file") {
    // SCXML 3.13.
    ChartPlayer player(R"(<state id="a"><transition event="e" cond="false"><log label="1"/></transition>
<transition event="e"><log label="2"/></transition><transition event="e"><log label="3"/></transition></state>)");
    player.send("e");
    CHECK(player.log() == "2");
}

TEST_CASE("The inner state goes before the one around it, which takes what the inner leaves") {
    // SCXML 3.13: transitions in descendants are more specific.
    ChartPlayer player(R"(<state id="a"><state id="a1"><transition event="e" cond="n == 0" target="a2">
<assign location="n" expr="1"/><log label="inner"/></transition></state><state id="a2"/>
<transition event="e" target="b"><log label="outer"/></transition></state>
<state id="b"/><datamodel><data id="n" expr="0"/></datamodel>)");
    player.send("e");
    CHECK(player.log() == "inner");
    CHECK(player.active() == "a a2");
    player.send("e");
    CHECK(player.log() == "outer");
}

TEST_CASE("One event is answered in every region") {
    // SCXML 3.13: the optimal transition set has one transition for each region; actions in document order.
    ChartPlayer player(R"(<parallel id="p">
<state id="r"><state id="r1"><transition event="e" target="r2"><log label="r"/></transition></state><state id="r2"/></state>
<state id="s"><state id="s1"><transition event="e" target="s2"><log label="s"/></transition></state><state id="s2"/></state>
</parallel>)");
    player.send("e");
    CHECK(player.log() == "r s");
    CHECK(player.active() == "p r r2 s s2");
}

TEST_CASE("Of two transitions that leave a state in common the earlier preempts the later") {
    // SCXML 3.13: conflicts are decided by document order where neither source holds the other.
    ChartPlayer player(R"(<parallel id="p">
<state id="r"><transition event="e" target="out"><log label="r"/></transition></state>
<state id="s"><state id="s1"><transition event="e" target="s2"><log label="s"/></transition></state><state id="s2"/></state>
</parallel><state id="out"/>)");
    player.send("e");
    CHECK(player.log() == "r");
    CHECK(player.active() == "out");
    ChartPlayer other(R"(<parallel id="p">
<state id="s"><state id="s1"><transition event="e" target="s2"><log label="s"/></transition></state><state id="s2"/></state>
<state id="r"><transition event="e" target="out"><log label="r"/></transition></state>
</parallel><state id="out"/>)");
    other.send("e");
    CHECK(other.log() == "s");
    CHECK(other.active() == "p s s2 r");
}

TEST_CASE("An inner transition preempts one of the states around it that a sibling region selected") {
    // SCXML appendix D, removeConflictingTransitions: the descendant's transition goes before its ancestor's,
    // even where the ancestor's was selected earlier, for another region.
    ChartPlayer player(R"(<parallel id="p"><transition event="e" target="out"><log label="p"/></transition>
<state id="r"/>
<state id="s"><state id="s1"><transition event="e" target="s2"><log label="s"/></transition></state><state id="s2"/></state>
</parallel><state id="out"/>)");
    player.send("e");
    CHECK(player.log() == "s");
    CHECK(player.active() == "p r s s2");
}

TEST_CASE("A transition without target leaves nothing and preempts nothing") {
    // SCXML 3.13: its exit set is empty.
    ChartPlayer player(R"(<parallel id="p"><onentry><log label="+p"/></onentry>
<state id="r"><transition event="e"><log label="r"/></transition></state>
<state id="s"><transition event="e" target="out"><log label="s"/></transition></state>
</parallel><state id="out"/>)");
    player.send("e");
    CHECK(player.log() == "+p r s");
    CHECK(player.active() == "out");
}

TEST_CASE("An internal transition does not leave its source, an external one does") {
    // SCXML 3.13: internal, compound source, targets inside it.
    const char* chart =
        R"(<state id="a"><onentry><log label="+a"/></onentry><onexit><log label="-a"/></onexit>
<transition event="in" type="internal" target="a2"/><transition event="ex" target="a2"/>
<state id="a1"><onexit><log label="-a1"/></onexit></state><state id="a2"><onentry><log label="+a2"/></onentry></state></state>)";
    ChartPlayer internal(chart);
    internal.log();
    internal.send("in");
    CHECK(internal.log() == "-a1 +a2");
    ChartPlayer external(chart);
    external.log();
    external.send("ex");
    CHECK(external.log() == "-a1 -a +a +a2");
}

TEST_CASE("An internal transition that cannot be one is taken as external") {
    // SCXML 3.13: the target is its own source, or the source is not compound.
    const char* chart =
        R"(<state id="a"><onentry><log label="+a"/></onentry><onexit><log label="-a"/></onexit>
<transition event="self" type="internal" target="a"/><state id="a1"/></state>)";
    ChartPlayer self(chart);
    self.log();
    self.send("self");
    CHECK(self.log() == "-a +a");
    ChartPlayer parallel(
        R"(<parallel id="p"><onentry><log label="+p"/></onentry><onexit><log label="-p"/></onexit>
<transition event="e" type="internal" target="r2"/>
<state id="r"><state id="r1"/><state id="r2"/></state></parallel>)");
    parallel.log();
    parallel.send("e");
    CHECK(parallel.log() == "-p +p");
    CHECK(parallel.active() == "p r r2");
}

TEST_CASE("A transition to its own state leaves and enters it") {
    ChartPlayer player(R"(<state id="a"><onentry><log label="+"/></onentry><onexit><log label="-"/></onexit>
<transition event="e" target="a"><log label="e"/></transition></state>)");
    player.send("e");
    CHECK(player.log() == "+ - e +");
}

TEST_CASE("A transition between regions of a parallel state leaves and enters the whole of it") {
    // SCXML 3.13: no region is the common compound ancestor, so the parallel state is left.
    ChartPlayer player(
        R"(<parallel id="p"><onentry><log label="+p"/></onentry><onexit><log label="-p"/></onexit>
<state id="r"><transition event="e" target="s2"/></state>
<state id="s"><state id="s1"/><state id="s2"/></state></parallel>)");
    player.send("e");
    CHECK(player.log() == "+p -p +p");
    CHECK(player.active() == "p r s s2");
}

TEST_CASE("Transitions without event are taken before any event, as long as one is enabled") {
    // SCXML 3.13, appendix D: eventless transitions first, then internal events.
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><onentry><raise event="i"/></onentry>
<transition cond="n &lt; 3"><assign location="n" expr="n + 1"/><log label="n" expr="n"/></transition>
<transition event="i" target="b"><log label="i"/></transition></state>
<state id="b"/>)");
    CHECK(player.log() == "n: 1 n: 2 n: 3 i");
}

TEST_CASE("An event nobody listens to is dropped") {
    // SCXML 3.13 (appendix D): an event without enabled transition is discarded.
    ChartPlayer player(R"(<state id="a"><transition event="go" target="b"/></state>
<state id="b"><transition event="e" target="a"/></state>)");
    player.send("e");
    player.send("go");
    CHECK(player.active() == "b");
}

}  // namespace halfsplit::simulation
