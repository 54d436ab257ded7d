#include <catch2/catch.hpp>

#include "tests/support/chart_player.h"

namespace halfsplit::simulation {
namespace {

using Catch::Contains;

ChartProblem start_problem(const std::string& inside) {
    const auto chart = test::chart_of(inside);
    const auto started = start_chart(chart, test::SetSenses{}, 0);
    REQUIRE_FALSE(started);
    return started.error();
}

}  // namespace

TEST_CASE("A chart that never comes to rest is a problem with its place, not a hang") {
    const ChartProblem always = start_problem("<state id=\"a\"><transition cond=\"true\"/></state>");
    CHECK_THAT(always.message, Contains("does not come to rest") && Contains("from a;"));
    CHECK(always.where.line == 2);
    CHECK(always.where.column == 15);
    for (
        const char* inside :
        {R"(<state id="a"><transition target="b"/></state><state id="b"><transition target="a"/></state>)",
         R"(<state id="a"><onentry><raise event="e"/></onentry><transition event="e"><raise event="e"/></transition></state>)",
         R"(<state id="a"><onentry><send event="e"/></onentry><transition event="e"><send event="e"/></transition></state>)",
         R"(<state id="a"><onentry><send event="e" delayexpr="0"/></onentry><transition event="e"><send event="e" delay="0ms"/></transition></state>)",
         R"(<state id="a"><onentry><log expr="1 / 0"/></onentry><transition event="error" target="a"/></state>)"})
        CHECK_THAT(start_problem(inside).message, Contains("does not come to rest"));
}

TEST_CASE("A delay too short to move time on does not hang either") {
    const auto chart = test::chart_of(
        R"(<state id="a"><transition event="e"><send event="e" delay="1e-30s"/></transition></state>)");
    auto state = start_chart(chart, test::SetSenses{}, 0);
    REQUIRE(state);
    raise_event(*state, "e");
    const auto done = act(chart, *state, test::SetSenses{}, 1000);
    REQUIRE_FALSE(done);
    CHECK_THAT(done.error().message, Contains("does not come to rest"));
}

TEST_CASE("Events that pile up are a problem before they fill the memory") {
    CHECK_THAT(
        start_problem("<state id=\"a\"><onentry><raise event=\"e\"/></onentry><transition event=\"e\">"
                      "<raise event=\"e\"/><raise event=\"e\"/><raise event=\"e\"/></transition></state>")
            .message,
        Contains("more than 1000 internal events wait"));
    CHECK_THAT(start_problem("<state id=\"a\"><onentry><send event=\"e\"/></onentry><transition event=\"e\">"
                             "<send event=\"e\"/><send event=\"e\"/><send event=\"e\"/></transition></state>")
                   .message,
               Contains("more than 1000 events that were sent wait"));
    CHECK_THAT(start_problem("<datamodel><data id=\"n\" expr=\"0\"/></datamodel><state id=\"a\"><transition "
                             "cond=\"n &lt; 900\">"
                             "<assign location=\"n\" expr=\"n + 1\"/><send event=\"e\" delay=\"1s\"/>"
                             "<send event=\"e\" delay=\"1s\"/></transition></state>")
                   .message,
               Contains("more than 1000 events that were sent wait"));
}

TEST_CASE("Many events that wait are no endless loop") {
    test::ChartPlayer player(R"(<datamodel><data id="n" expr="0"/></datamodel>
<state id="a"><transition event="e"><assign location="n" expr="n + 1"/></transition></state>)");
    for (int i = 0; i < 900; ++i) raise_event(player.state, "e");
    for (int i = 0; i < 5000; ++i) raise_event(player.state, "unheard");
    player.act();
    CHECK(std::get<double>(player.state.data.front()) == 900);
}

}  // namespace halfsplit::simulation
