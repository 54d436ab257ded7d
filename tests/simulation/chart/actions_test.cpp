#include <catch2/catch.hpp>
#include <limits>

#include "engine/model/chart/parse_expression.h"
#include "engine/simulation/chart/evaluate.h"
#include "tests/support/chart_player.h"

// Assertions of W3C SCXML (Recommendation, 1 September 2015) in our own charts, clause numbers from memory;
// what concerns the expression language and the platform is defined in circuits/BEHAVIOUR.md.

namespace halfsplit::simulation {
namespace {

using Catch::Contains;
using model::chart::Drive;
using test::ChartPlayer;

/// What the expression gives, as a log shows it.
std::string shown(const std::string& expression) {
    test::SetSenses senses;
    senses.volts["3"] = 11.5;
    senses.hertz["6"] = 120;
    senses.amperes["7"] = 2.25;
    senses.volts["broken"] = std::numeric_limits<double>::quiet_NaN();
    ChartPlayer player(
        test::chart_of("<datamodel><data id=\"n\" expr=\"4\"/><data id=\"t\" expr=\"'left'\"/>"
                       "<data id=\"b\" expr=\"true\"/></datamodel><state id=\"a\"><onentry><log expr=\"" +
                       expression + "\"/></onentry></state>"),
        senses);
    return player.log();
}

}  // namespace

TEST_CASE("Expressions are worked out as written") {
    // Arithmetic by hand.
    const std::vector<std::pair<const char*, const char*>> rows{{"1 + 2 * 3", "7"},
                                                                {"(1 + 2) * 3", "9"},
                                                                {"10 - 3 - 2", "5"},
                                                                {"16 / 4 / 2", "2"},
                                                                {"-n + 1", "-3"},
                                                                {"2 - -1", "3"},
                                                                {"min(n, 3)", "3"},
                                                                {"max(n, 3)", "4"},
                                                                {"abs(3 - n)", "1"},
                                                                {"1 / 8", "0.125"},
                                                                {"n == 4", "true"},
                                                                {"n != 4", "false"},
                                                                {"n &lt; 4", "false"},
                                                                {"n &lt;= 4", "true"},
                                                                {"n > 4", "false"},
                                                                {"n >= 4", "true"},
                                                                {"t == 'left'", "true"},
                                                                {"t != 'left'", "false"},
                                                                {"'Left' == t", "false"},
                                                                {"b == true", "true"},
                                                                {"not b", "false"},
                                                                {"not n == 5", "true"},
                                                                {"b and n > 9", "false"},
                                                                {"b or n > 9", "true"},
                                                                {"false and false or true", "true"},
                                                                {"true or true and false", "true"},
                                                                {"not false and false", "false"},
                                                                {"_in('3')", "11.5"},
                                                                {"_hz('6') / 2", "60"},
                                                                {"_amps('7') > 2", "true"},
                                                                {"In('a')", "true"},
                                                                {"t", "left"},
                                                                {"b", "true"}};
    for (const auto& [expression, expected] : rows) {
        INFO(expression);
        CHECK(shown(expression) == expected);
    }
}

TEST_CASE("The side that does not matter is not looked at") {
    CHECK(shown("n == 4 or 1 / 0 > 1") == "true");
    CHECK(shown("n == 5 and 1 / 0 > 1") == "false");
}

TEST_CASE("What cannot be worked out is an error of evaluation with its reason") {
    CHECK_THAT(shown("1 / (n - 4)"), Contains("error.execution at line 2: division by zero"));
    CHECK_THAT(shown("1e300 * 1e300"), Contains("beyond all bounds"));
    CHECK_THAT(shown("_in('broken') > 1"), Contains("the pin has no value"));
    CHECK_THAT(shown("not (1 / 0 > 1)"), Contains("division by zero"));
}

TEST_CASE("Data start with their first values, which may use those above") {
    // SCXML 5.3: early binding, in the order of the file.
    ChartPlayer player(R"(<datamodel><data id="x" expr="2"/><data id="y" expr="x * 3"/></datamodel>
<state id="a"><onentry><log expr="y"/></onentry></state>)");
    CHECK(player.log() == "6");
}

TEST_CASE("A first value that cannot be worked out leaves the item empty and raises error.execution") {
    // SCXML 5.3: error.execution in the internal queue, an empty data item.
    ChartPlayer player(R"(<datamodel><data id="x" expr="1 / 0"/></datamodel>
<state id="a"><transition event="error.execution"><log label="raised" expr="x"/></transition></state>)");
    CHECK_THAT(player.log(), Contains("division by zero") && Contains("raised: 0"));
}

TEST_CASE("An error ends its block but neither the other blocks nor what stands before it") {
    // SCXML 4.9: the rest of the block is not processed; 3.8: each onentry is a block of its own.
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><onentry><log label="1"/><if cond="true"><assign location="n" expr="1 / n"/><log label="no"/></if><log label="no"/></onentry>
<onentry><log label="2"/></onentry>
<transition event="error.execution"><log label="caught"/></transition></state>)");
    CHECK(player.log() == "1 error.execution at line 3: division by zero 2 caught");
    CHECK(std::get<double>(player.state.data.front()) == 0);
}

TEST_CASE("A condition that cannot be worked out counts as false and raises error.execution") {
    // SCXML 5.9.1.
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><transition event="e" cond="1 / n > 0" target="b"/><transition event="e"><log label="second"/></transition>
<transition event="error.execution"><log label="caught"/></transition></state>
<state id="b"/>)");
    player.send("e");
    CHECK(player.log() == "error.execution at line 3: division by zero second caught");
    player.send("e");
    CHECK(player.log() == "error.execution at line 3: division by zero second caught");
    CHECK(player.active() == "a");
}

TEST_CASE("A condition without event that cannot be worked out does not hang the chart") {
    // By the letter of appendix D it would raise error.execution again after each one; here once a macrostep.
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><transition cond="1 / n > 0" target="b"/>
<transition event="error.execution"><log label="caught"/></transition></state>
<state id="b"/>)");
    CHECK(player.log() == "error.execution at line 3: division by zero caught");
    CHECK_FALSE(player.wants_to_act());
}

TEST_CASE("An if does the first branch whose condition holds") {
    // SCXML 4.3.
    ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><transition event="*"><assign location="n" expr="n + 1"/><if cond="n == 1"><log label="one"/><elseif cond="n == 2"/>
<log label="two"/><elseif cond="1 / (n - 3) > 0"/><log label="more"/><else/><log label="else"/></if></transition></state>)");
    for (const char* event : {"e", "f"}) player.send(event);
    CHECK(player.log() == "one two");
    // The third time the division fails: false, so else, and error.execution is the fourth event.
    player.send("g");
    CHECK(player.log() == "error.execution at line 4: division by zero else more");
}

TEST_CASE("A driver does what it was told last") {
    ChartPlayer player(R"(<datamodel><data id="n" expr="0.4"/></datamodel>
<state id="a"><onentry><assign location="driver.7" expr="'on'"/><assign location="driver.8" expr="n"/>
<assign location="driver.9" expr="'high'"/></onentry>
<transition event="off"><assign location="driver.7" expr="'off'"/><assign location="driver.8" expr="n - 0.4"/>
<assign location="driver.9" expr="'low'"/></transition>
<transition event="wrong"><assign location="driver.7" expr="n + 1"/></transition></state>)");
    const auto& drives = player.state.drives;
    CHECK(drives.size() == 3);
    CHECK(drives.at("7").drive == Drive::on);
    CHECK(drives.at("7").duty == 1);
    CHECK(drives.at("8").drive == Drive::on);
    CHECK(drives.at("8").duty == 0.4);
    CHECK(drives.at("9").drive == Drive::high);
    player.send("off");
    CHECK(drives.at("7").drive == Drive::off);
    CHECK(drives.at("8").drive == Drive::off);
    CHECK(drives.at("9").drive == Drive::low);
    player.send("wrong");
    CHECK(drives.at("7").drive == Drive::off);
    CHECK_THAT(player.log(), Contains("error.execution at line 7: 1.4 is no duty"));
}

TEST_CASE("A delay that is none is an error of evaluation and sends nothing") {
    ChartPlayer player(R"(<datamodel><data id="n" expr="-1"/></datamodel>
<state id="a"><onentry><send event="e" delayexpr="n"/><log label="no"/></onentry></state>)");
    CHECK(player.log() == "error.execution at line 3: -1 s is no delay");
    CHECK_FALSE(next_timer_s(player.state));
}

TEST_CASE("A unit goes to sleep and wakes") {
    ChartPlayer player(R"(<state id="a"><transition event="in.5.low" target="b"/></state>
<state id="b"><onentry><assign location="unit.asleep" expr="true"/></onentry><onexit><assign location="unit.asleep" expr="false"/></onexit>
<transition event="in.5.high" target="a"/></state>)");
    CHECK_FALSE(player.state.asleep);
    player.send("in.5.low");
    CHECK(player.state.asleep);
    player.send("in.5.high");
    CHECK_FALSE(player.state.asleep);
}

TEST_CASE("A condition on a voltage is noticed without an event") {
    ChartPlayer player(R"(<state id="a"><transition cond="_in('5') > 6" target="b"/></state>
<state id="b"><transition cond="_in('5') &lt; 4" target="a"/></state>)");
    CHECK_FALSE(player.wants_to_act());
    player.senses.volts["5"] = 12;
    CHECK(player.wants_to_act());
    player.act();
    CHECK(player.active() == "b");
    CHECK_FALSE(player.wants_to_act());
    player.senses.volts["5"] = 5;
    CHECK_FALSE(player.wants_to_act());
    player.senses.volts["5"] = 3;
    player.act();
    CHECK(player.active() == "a");
}

TEST_CASE("Log lines carry their time, and a full log says so") {
    ChartPlayer player(R"(<state id="a"><onentry><send event="e" delay="2s"/></onentry>
<transition event="e"><log label="here"/></transition></state>)");
    player.run_to(3);
    const auto lines = take_log(player.state);
    REQUIRE(lines.size() == 1);
    CHECK(lines.front().at_s == 2);
    CHECK(take_log(player.state).empty());
    for (int i = 0; i < kMaxLogLines + 5; ++i) player.send("e");
    CHECK(player.state.log.size() == static_cast<std::size_t>(kMaxLogLines) + 1);
    CHECK_THAT(player.state.log.back().text, Contains("the log is full"));
}

}  // namespace halfsplit::simulation
