#include <catch2/catch.hpp>

#include "engine/model/chart/check_unit.h"
#include "engine/model/kinds/kinds.h"
#include "tests/model/part_samples.h"
#include "tests/support/chart_player.h"
#include "tests/support/files.h"

namespace halfsplit::simulation {
namespace {

using model::chart::Drive;

/// The example on the page.
std::string example() {
    const auto page = test::read_file(test::project_file("circuits/BEHAVIOUR.md"));
    REQUIRE(page);
    const std::string open = "```xml\n";
    const std::size_t begin = page->find(open);
    REQUIRE(begin != std::string::npos);
    const std::size_t end = page->find("```", begin + open.size());
    return page->substr(begin + open.size(), end - begin - open.size());
}

model::chart::Chart example_chart() {
    auto chart = model::chart::read_chart(example(), "courtesy-light.scxml");
    REQUIRE(chart);
    return std::move(*chart);
}

model::Part unit() {
    return test::sample(model::kinds::control_unit())
        .pins({test::unit_pin("1", "supply"), test::unit_pin("2", "ground"),
               test::unit_pin("3", "input", {{"pull-up-ohm", "4700"}}), test::unit_pin("7", "high-side")})
        .part();
}

}  // namespace

// What the example does is said on the page and in its own names.

TEST_CASE("The example in BEHAVIOUR.md is read and fits its unit") {
    const auto chart = example_chart();
    CHECK(chart.name == "courtesy-light");
    CHECK(model::chart::check_unit(chart, unit()).empty());
}

TEST_CASE("The example in BEHAVIOUR.md lights, glows on, goes out and sleeps") {
    test::ChartPlayer player(example_chart());
    CHECK(player.active() == "awake dark");
    CHECK(player.state.drives.at("7").drive == Drive::off);
    player.run_to(10);
    player.send("in.3.low");
    CHECK(player.active() == "awake lit");
    CHECK(player.state.drives.at("7").duty == 1);
    CHECK(player.log() == "door opened: 1");
    player.run_to(100);
    player.send("in.3.high");
    CHECK(player.active() == "awake afterglow");
    CHECK(player.state.drives.at("7").duty == 0.4);
    player.run_to(111);
    player.send("in.3.low");
    CHECK(player.log() == "door opened: 2");
    player.send("in.3.high");
    player.run_to(122.9);
    CHECK(player.active() == "awake afterglow");
    player.run_to(123);
    CHECK(player.active() == "awake dark");
    player.run_to(182.9);
    CHECK_FALSE(player.state.asleep);
    player.run_to(183);
    CHECK(player.active() == "asleep");
    CHECK(player.state.asleep);
    player.send("in.3.low");
    CHECK(player.active() == "awake lit");
    CHECK_FALSE(player.state.asleep);
}

TEST_CASE("The example in BEHAVIOUR.md switches a shorted lamp off and tries again") {
    test::ChartPlayer player(example_chart());
    player.send("in.3.low");
    player.senses.amperes["7"] = 30;
    CHECK(player.wants_to_act());
    player.act();
    CHECK(player.active() == "blocked");
    CHECK(player.state.drives.at("7").drive == Drive::off);
    player.senses.amperes["7"] = 0;
    player.senses.volts["3"] = 0.1;
    player.run_to(5);
    CHECK(player.active() == "awake lit");
}

}  // namespace halfsplit::simulation
