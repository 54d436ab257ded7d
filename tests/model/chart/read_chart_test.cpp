#include "engine/model/chart/read_chart.h"

#include <catch2/catch.hpp>

#include "tests/support/chart_player.h"

namespace halfsplit::model::chart {
namespace {

using test::chart_of;

int index_of(const Chart& chart, const char* id) {
    const auto index = chart.find_state(id);
    INFO(id);
    REQUIRE(index);
    return *index;
}

const State& named(const Chart& chart, const char* id) {
    return chart.state(index_of(chart, id));
}

}  // namespace

TEST_CASE("A chart is read as a tree in the order of the file") {
    const Chart chart = chart_of(R"(<state id="a"><state id="a1"/><final id="a2"/></state>
<parallel id="p"><state id="q"/><state id="r"><state id="r1"/></state></parallel>
<final id="end"/>
)",
                                 "name=\"step\" datamodel=\"halfsplit\" binding=\"early\" initial=\"p\"");
    CHECK(chart.name == "step");
    CHECK(chart.file == "a.scxml");
    REQUIRE(chart.states.size() == 9);
    CHECK(chart.state(0).kind == StateKind::root);
    CHECK(named(chart, "a").kind == StateKind::compound);
    CHECK(named(chart, "a1").kind == StateKind::atomic);
    CHECK(named(chart, "a2").kind == StateKind::final);
    CHECK(named(chart, "p").kind == StateKind::parallel);
    CHECK(chart.state(0).initial == std::vector{index_of(chart, "p")});
    // SCXML 3.3: without initial, the first state inside.
    CHECK(named(chart, "a").initial == std::vector{index_of(chart, "a1")});
    CHECK(named(chart, "r").parent == index_of(chart, "p"));
    CHECK(chart.is_descendant(index_of(chart, "r1"), index_of(chart, "p")));
    CHECK_FALSE(chart.is_descendant(index_of(chart, "p"), index_of(chart, "p")));
    CHECK_FALSE(chart.is_descendant(index_of(chart, "end"), index_of(chart, "p")));
    CHECK(named(chart, "end").where.line == 4);
    CHECK_FALSE(chart.find_state(""));
}

TEST_CASE("Transitions know their events, targets and the state they leave the inside of") {
    const Chart chart = chart_of(R"(<state id="a"><state id="a1">
  <transition event="foo.bar foo.* bar. *" target="a2"/>
  <transition event="out" target="b"/>
  <transition cond="true"/>
</state><state id="a2"/>
<transition event="self" target="a1"/>
<transition event="inside" type="internal" target="a1"/>
<transition event="outside" type="internal" target="b"/>
</state><state id="b"/>
)");
    const auto& inner = named(chart, "a1").transitions;
    REQUIRE(inner.size() == 3);
    CHECK(inner[0].events == std::vector<std::string>{"foo.bar", "foo", "bar", "*"});
    // SCXML 3.13: the domain is the innermost compound state that holds source and targets.
    CHECK(inner[0].domain == index_of(chart, "a"));
    CHECK(inner[1].domain == 0);
    CHECK(inner[2].events.empty());
    CHECK(inner[2].domain == -1);
    const auto& outer = named(chart, "a").transitions;
    CHECK(outer[0].domain == 0);
    CHECK(outer[1].domain == index_of(chart, "a"));
    CHECK(outer[2].domain == 0);
}

TEST_CASE("A parallel state is never the one whose inside a transition leaves") {
    // SCXML appendix D, findLCCA: compound states and the root only.
    const Chart chart = chart_of(R"(<parallel id="p"><state id="q"><transition event="e" target="r1"/></state>
<state id="r"><state id="r1"/></state></parallel>
)");
    CHECK(named(chart, "q").transitions.front().domain == 0);
}

TEST_CASE("Executable content is read in order with its branches") {
    const Chart chart = chart_of(R"(<datamodel><data id="n" expr="1"/><data id="m" expr="n + 1"/></datamodel>
<state id="a"><onentry>
  <assign location="n" expr="n + 1"/>
  <assign location="driver.7" expr="'on'"/>
  <assign location="driver.8" expr="n / 10"/>
  <assign location="unit.asleep" expr="n &lt; 2"/>
  <send event="late" delay="250ms" id="s"/><send event="later" delay="1.5s"/>
  <send event="last" delayexpr="n"/><cancel sendid="s"/>
  <log label="n" expr="n"/>
</onentry><onentry><raise event="x"/></onentry>
<onexit><if cond="n == 1"><raise event="one"/><elseif cond="n == 2"/><else/><raise event="e"/><raise event="f"/></if>
</onexit></state>
)");
    const State& a = named(chart, "a");
    REQUIRE(a.on_entry.size() == 2);
    const Block& block = a.on_entry[0];
    REQUIRE(block.size() == 9);
    CHECK(std::get<AssignData>(block[0].what).data == 0);
    CHECK(std::get<Drive>(std::get<AssignDriver>(block[1].what).level) == Drive::on);
    CHECK(std::holds_alternative<Expression>(std::get<AssignDriver>(block[2].what).level));
    CHECK(std::holds_alternative<AssignAsleep>(block[3].what));
    CHECK(std::get<Send>(block[4].what).delay_s == 0.25);
    CHECK(std::get<Send>(block[4].what).id == "s");
    CHECK(std::get<Send>(block[5].what).delay_s == 1.5);
    CHECK(std::get<Send>(block[6].what).delay_of);
    CHECK(std::get<Cancel>(block[7].what).send_id == "s");
    CHECK(std::get<Log>(block[8].what).label == "n");
    const auto& branches = std::get<If>(a.on_exit.front().front().what).branches;
    REQUIRE(branches.size() == 3);
    CHECK(branches[0].actions.size() == 1);
    CHECK(branches[1].actions.empty());
    CHECK_FALSE(branches[2].condition);
    CHECK(branches[2].actions.size() == 2);
}

TEST_CASE("Expressions and pins know their place in the file, references and line ends counted") {
    const Chart chart =
        chart_of("<state id=\"a\">\n<transition cond=\"1 &lt; 2 and\n   _in('3') > 6\"/></state>\n");
    const Expression& condition = *named(chart, "a").transitions.front().condition;
    CHECK(condition.where.line == 3);
    CHECK(condition.where.column == 19);
    REQUIRE(chart.pins.size() == 1);
    CHECK(chart.pins.front().where.line == 4);
    CHECK(chart.pins.front().where.column == 8);
}

TEST_CASE("Data may be declared in any state and is one for the whole chart") {
    // SCXML 5.3 with early binding: every data item exists from the start and everywhere.
    const Chart chart = chart_of(R"(<state id="a"><datamodel><data id="x" expr="'on'"/></datamodel></state>
<state id="b"><transition cond="x == 'on'" target="a"/></state>
)");
    REQUIRE(chart.data.size() == 1);
    CHECK(chart.data.front().name == "x");
    CHECK(chart.data.front().initial.type() == ValueType::text);
}

}  // namespace halfsplit::model::chart
