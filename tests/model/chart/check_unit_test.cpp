#include "engine/model/chart/check_unit.h"

#include <catch2/catch.hpp>

#include "engine/model/kinds/kinds.h"
#include "tests/model/part_samples.h"
#include "tests/support/chart_player.h"

namespace halfsplit::model::chart {
namespace {

using Catch::Contains;

/// What is wrong with a condition and an assignment in a chart of the unit in part_samples.h: 1 and 3 supply,
/// 2 and 4 ground, 5 and 6 input, 7 high-side, 8 low-side, 9 half-bridge, 10 bus.
Diagnostics problems(const std::string& condition, const std::string& assignment = "",
                     const std::string& event = "e") {
    const Chart chart = test::chart_of("<state id=\"a\"><transition event=\"" + event + "\" cond=\"" +
                                       condition + "\"/><onentry>" + assignment + "</onentry></state>\n");
    return check_unit(chart, test::sample(kinds::control_unit()).part());
}

std::string problem(const std::string& condition, const std::string& assignment = "",
                    const std::string& event = "e") {
    const Diagnostics found = problems(condition, assignment, event);
    REQUIRE(found.size() == 1);
    CHECK(found.front().where.file == "a.scxml");
    CHECK(found.front().where.line == 2);
    return found.front().message;
}

std::string drive(const std::string& pin, const std::string& level) {
    return "<assign location=\"driver." + pin + "\" expr=\"" + level + "\"/>";
}

}  // namespace

TEST_CASE("Pins of fitting kinds and levels their drivers take are in order") {
    CHECK(problems("_in('5') > _in('10') and _in('3') > 6 and _hz('6') + _hz('10') > 0").empty());
    CHECK(problems("_amps('7') + _amps('8') + _amps('9') > 20").empty());
    CHECK(problems("true", "", "in.5.high in.6.low in.10 in.* other.5").empty());
    CHECK(problems("true", drive("7", "'on'") + drive("7", "'off'") + drive("7", "0.5") + drive("8", "1") +
                               drive("9", "'high'") + drive("9", "'low'") + drive("9", "'off'"))
              .empty());
}

TEST_CASE("A pin the unit has not, or of another kind, is a problem with what fits") {
    CHECK_THAT(problem("_in('55') > 1"), Contains("has no pin 55; one of 1, 3, 5, 6 or 10 is expected"));
    CHECK_THAT(problem("_hz('door') > 1"), Contains("has no pin door; one of 5, 6 or 10 is expected"));
    CHECK_THAT(problem("_in('7') > 1"), Contains("is of kind high-side; input, bus or supply is expected"));
    CHECK_THAT(problem("_hz('3') > 1"), Contains("is of kind supply; input or bus is expected"));
    CHECK_THAT(problem("_amps('5') > 1"), Contains("is of kind input; high-side, low-side or half-bridge"));
    CHECK_THAT(problem("true", drive("5", "'on'")), Contains("is of kind input"));
    CHECK_THAT(problem("true", drive("77", "'on'")), Contains("has no pin 77; one of 7, 8 or 9 is expected"));
    CHECK_THAT(problem("true", "", "in.33.high"), Contains("has no pin 33; one of 1, 3, 5"));
    CHECK_THAT(problem("true", "", "in.8.low"), Contains("is of kind low-side"));
}

TEST_CASE("A level of another kind of driver is a problem") {
    CHECK_THAT(problem("true", drive("7", "'high'")),
               Contains("is a high-side driver; 'on', 'off' or a number"));
    CHECK_THAT(problem("true", drive("8", "'low'")), Contains("is a low-side driver"));
    CHECK_THAT(problem("true", drive("9", "'on'")), Contains("is a half-bridge; 'high', 'low' or 'off'"));
    CHECK_THAT(problem("true", drive("9", "0.5")), Contains("takes no duty"));
}

TEST_CASE("A problem with a pin stands at the pin's name") {
    const Diagnostics found = problems("1 &lt; 2 and _in('x') > 1");
    REQUIRE(found.size() == 1);
    // <state id="a"><transition event="e" cond="1 &lt; 2 and _in('x')…: the quote before x.
    CHECK(found.front().where.column == 60);
}

}  // namespace halfsplit::model::chart
