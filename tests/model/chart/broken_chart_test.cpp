#include <catch2/catch.hpp>

#include "tests/support/chart_errors.h"
#include "tests/support/times.h"

namespace halfsplit::model::chart {

namespace {

using Catch::Contains;
using test::chart_error;
using test::chart_text;
using test::times;

/// The inside of a state.
std::string in_state(const std::string& inside) {
    return "<state id=\"a\">" + inside + "</state>\n";
}

std::string on_entry(const std::string& inside) {
    return "<datamodel><data id=\"count\" expr=\"0\"/></datamodel>" +
           in_state("<onentry>" + inside + "</onentry>");
}

using Rows = std::vector<std::pair<std::string, const char*>>;

void check_rows(const Rows& rows) {
    for (const auto& [inside, message] : rows) CHECK_THAT(chart_error(inside), Contains(message));
}

}  // namespace

TEST_CASE("What SCXML has and the subset has not is refused by name") {
    check_rows({
        {in_state("«<»history id=\"h\"/>"), "<history> is outside the subset of SCXML"},
        {in_state("«<»invoke/>"), "<invoke> is outside the subset"},
        {"«<»script/>" + in_state(""), "<script> is outside the subset"},
        {on_entry("«<»foreach array=\"a\" item=\"b\"/>"), "<foreach> is outside the subset"},
        {on_entry("<send event=\"e\">«<»param name=\"p\"/></send>"), "<param> is outside the subset"},
        {on_entry("<send event=\"e\">«<»content/></send>"), "<content> is outside the subset"},
        {"<final id=\"a\">«<»donedata/></final>", "<donedata> is outside the subset"},
        {on_entry("<send event=\"e\" «target»=\"x\"/>"), "target of <send> is outside the subset"},
        {on_entry("<cancel sendid=\"e\" «sendidexpr»=\"x\"/>"), "sendidexpr of <cancel> is outside"},
        {"<datamodel><data id=\"x\" expr=\"1\" «src»=\"f\"/></datamodel>" + in_state(""),
         "src of <data> is outside"},
    });
    CHECK_THAT(chart_error(in_state(""), "datamodel=\"«»ecmascript\""), Contains("halfsplit is expected"));
    CHECK_THAT(chart_error(in_state(""), "binding=\"«»late\""), Contains("early is expected"));
}

TEST_CASE("Unknown elements and attributes are refused with the nearest known one") {
    check_rows({
        {"«<»stat id=\"a\"/>" + in_state(""), "did you mean state?"},
        {in_state("«<»onentri/>"), "did you mean onentry?"},
        {in_state("<transition «evnt»=\"e\"/>"), "did you mean event?"},
        {in_state("<onentry «id»=\"e\"/>"), "none is expected"},
        {on_entry("<send event=\"e\" «delays»=\"1s\"/>"), "did you mean delay?"},
        {on_entry("<assign location=\"count\" «exp»=\"1\"/>"), "did you mean expr?"},
        {in_state("«text»"), "text does not belong in <state>"},
        {on_entry("<raise event=\"e\">«<»log label=\"x\"/></raise>"), "expected to be empty"},
        {"<parallel id=\"p\"><state id=\"s\"/>«<»final id=\"f\"/></parallel>",
         "does not belong in <parallel>"},
        {"<final id=\"f\">«<»transition event=\"e\"/></final>", "does not belong in <final>"},
        {in_state("<onentry>«<»transition/></onentry>"), "does not belong in <onentry>"},
    });
}

TEST_CASE("States need ids of their own, and states where states are expected") {
    check_rows({
        {"«<»state/>", "<state> has no id"},
        {"<state id=\"«»1a\"/>", "is no id"},
        {in_state("") + "<state id=\"«»a\"/>", "already at a.scxml:2:1"},
        {"<state id=\"s\"/>«<»parallel id=\"p\"/>", "<parallel> has no states"},
        {"<state id=\"s\" «initial»=\"s\"/>", "no states inside"},
    });
    const auto empty = read_chart(chart_text(""), "a.scxml");
    REQUIRE_FALSE(empty);
    CHECK_THAT(empty.error().front().message, Contains("<scxml> has no states"));
}

TEST_CASE("Targets must exist, lie where they are expected and go together") {
    check_rows({
        {in_state("<transition event=\"e\" target=\"a «»bb\"/>") + "<state id=\"bx\"/>",
         "no state 'bb' (did you mean bx?)"},
        {in_state("<transition event=\"e\" target=\"«»\"/>"), "target is empty"},
        {"<state id=\"a\" initial=\"«»b\"><state id=\"c\"/></state><state id=\"b\"/>",
         "does not lie inside a"},
        {"<state id=\"a\" initial=\"«»a\"><state id=\"c\"/></state>", "does not lie inside a"},
        // SCXML 3.11: only states of different regions can be active together.
        {in_state("<transition event=\"e\" target=\"«»a b\"/>") + "<state id=\"b\"/>",
         "a and b cannot be entered together"},
        {"<parallel id=\"p\"><state id=\"q\"><state id=\"q1\"/></state><state id=\"r\">"
         "<transition event=\"e\" target=\"«»q q1\"/></state></parallel>",
         "q and q1 cannot be entered together"},
        {in_state("<transition event=\"e\" target=\"«»a a\"/>"), "a and a cannot be entered together"},
    });
    CHECK_THAT(chart_error(in_state(""), "initial=\"«»b\""), Contains("there is no state 'b'"));
}

TEST_CASE("Transitions that cannot be taken as written are refused") {
    check_rows({
        // SCXML 3.5: at least one of event, cond and target.
        {in_state("«<»transition/>"), "no event, cond or target"},
        {in_state("<transition event=\"«»\"/>"), "event is empty"},
        {in_state("<transition event=\"ok «»a..b\"/>"), "'a..b' is no event"},
        {in_state("<transition event=\"«»*.a\"/>"), "'*.a' is no event"},
        {in_state("<transition event=\"e\" type=\"«»outer\"/>"), "internal or external is expected"},
        {in_state("<transition event=\"«»in.3.hgh\"/>"), "in.PIN.high and in.PIN.low"},
        {in_state("<transition cond=\"«»1\"/>"), "cond: true or false is expected; this is a number"},
        {in_state("<transition cond=\"1 &lt; 2 «»&lt;= 3 &lt; 4\"/>"), "not chained"},
    });
}

TEST_CASE("An initial element has one transition with a target and nothing else") {
    // SCXML 3.6.
    const auto with = [](const std::string& initial) { return in_state(initial + "<state id=\"b\"/>"); };
    check_rows({
        {with("«<»initial/>"), "holds one <transition>"},
        {with("<initial>«<»transition/></initial>"), "has no target"},
        {with("<initial><transition «event»=\"e\" target=\"b\"/></initial>"), "no event"},
        {with("<initial><transition «cond»=\"true\" target=\"b\"/></initial>"), "no cond"},
        {with("<initial><transition target=\"b\"/></initial>«<»initial><transition target=\"b\"/></initial>"),
         "given twice"},
        {"<state id=\"a\" initial=\"b\">«<»initial><transition target=\"b\"/></initial><state "
         "id=\"b\"/></state>",
         "given twice"},
    });
}

TEST_CASE("Actions that cannot be done as written are refused") {
    check_rows({
        {on_entry("<assign location=\"«»cuont\" expr=\"1\"/>"), "did you mean count?"},
        {on_entry("<assign location=\"«»driver.\" expr=\"'on'\"/>"), "driver.PIN or unit.asleep is expected"},
        {on_entry("<assign location=\"«»unit.aslep\" expr=\"true\"/>"), "did you mean unit.asleep?"},
        {on_entry("<assign location=\"count\" expr=\"«»'on'\"/>"), "a number is expected; this is a text"},
        {on_entry("<assign location=\"unit.asleep\" expr=\"«»1\"/>"), "true or false is expected"},
        {on_entry("<assign location=\"driver.2\" expr=\"«»'On'\"/>"), "'on', 'off', 'high' or 'low'"},
        {on_entry("<assign location=\"driver.2\" expr=\"«»_event\"/>"), "as it stands"},
        {on_entry("<assign location=\"driver.2\" expr=\"«»true\"/>"), "a number from 0 to 1 is expected"},
        {on_entry("<assign location=\"driver.2\" expr=\"«»1.5\"/>"), "1.5 is no duty"},
        {on_entry("«<»assign location=\"count\"/>"), "<assign> has no expr"},
        {on_entry("<assign location=\"count\" expr=\"count «»= 1\"/>"), "write =="},
        {on_entry("<send event=\"e\" delay=\"«»12\"/>"), "one such as 12s, 0.5s or 250ms"},
        {on_entry("<send event=\"e\" delay=\"«»-1s\"/>"), "is no delay"},
        {on_entry("<send event=\"e\" delay=\"«»1,5s\"/>"), "is no delay"},
        {on_entry("<send event=\"e\" delay=\"«»1 s\"/>"), "is no delay"},
        {on_entry("<send event=\"e\" delay=\"«»5min\"/>"), "is no delay"},
        {on_entry("<send event=\"e\" delay=\"«»1e9s\"/>"), "too long"},
        {on_entry("<send event=\"e\" delay=\"1s\" «delayexpr»=\"1\"/>"), "one of them is expected"},
        {on_entry("<send event=\"e\" delayexpr=\"«»'1s'\"/>"), "a number is expected; this is a text"},
        {on_entry("<send event=\"e\" id=\"«»\"/>"), "the id is empty"},
        {on_entry("<cancel sendid=\"«»\"/>"), "the sendid is empty"},
        {on_entry("<send event=\"«»e f\"/>"), "one name is expected"},
        {on_entry("<raise event=\"«»e.*\"/>"), "is no event"},
        {on_entry("<raise event=\"«»\"/>"), "no name"},
        {on_entry("<raise event=\"«»in.3.high\"/>"), "come from the pins"},
        {on_entry("«<»log/>"), "says nothing"},
        {on_entry("<if cond=\"true\"><else/>«<»elseif cond=\"true\"/></if>"), "behind <else>"},
        {on_entry("<if cond=\"true\"><else/>«<»else/></if>"), "behind <else>"},
        {on_entry("<if cond=\"«»count\"/>"), "true or false is expected"},
        {on_entry("<if cond=\"true\"><if cond=\"true\"><log expr=\"«»x\"/></if></if>"), "no data item x"},
    });
}

TEST_CASE("Data items are refused where they are wrong and not again where they are used") {
    const auto data = [](const std::string& items) {
        return "<datamodel>" + items + "</datamodel>" + in_state("<transition cond=\"x > 1 and y\"/>");
    };
    check_rows({
        {data("<data id=\"x\" expr=\"«»oops\"/><data id=\"y\" expr=\"x == 2\"/>"), "no data item oops"},
        {data("<data id=\"x\" expr=\"1\"/><data id=\"«»x\" expr=\"1\"/><data id=\"y\" expr=\"true\"/>"),
         "already at a.scxml:2:12"},
        {data("<data id=\"x\" expr=\"«»z\"/><data id=\"z\" expr=\"1\"/><data id=\"y\" expr=\"true\"/>"),
         "only data items above it"},
        {data("<data id=\"x\" expr=\"1\"/><data id=\"y\" expr=\"true\"/><data id=\"«»door-open\" "
              "expr=\"1\"/>"),
         "cannot name a data item"},
        {data("<data id=\"x\" expr=\"1\"/><data id=\"y\" expr=\"true\"/>«<»data id=\"w\"/>"),
         "<data> has no expr"},
    });
}

TEST_CASE("A file that is no state chart of the subset's version is refused") {
    const auto first = [](const std::string& text) {
        const auto chart = read_chart(text, "a.scxml");
        REQUIRE_FALSE(chart);
        return to_text(chart.error().front());
    };
    CHECK_THAT(first("<circuit xmlns=\"http://www.w3.org/2005/07/scxml\"/>"),
               Contains("<scxml> is expected"));
    CHECK_THAT(first("<scxml version=\"1.0\"><state id=\"a\"/></scxml>"), Contains("namespace"));
    CHECK_THAT(first("<scxml xmlns=\"http://www.w3.org/2005/07/scxml\"><state id=\"a\"/></scxml>"),
               Contains("a.scxml:1:1: error: <scxml> has no version"));
    CHECK_THAT(
        first("<scxml xmlns=\"http://www.w3.org/2005/07/scxml\" version=\"2.0\"><state id=\"a\"/></scxml>"),
        Contains("1.0 is expected"));
    CHECK_THAT(first("<scxml"), Contains("error"));
    CHECK_THAT(first(""), Contains("error"));
}

TEST_CASE("All errors of a file are reported in its order") {
    const auto chart = read_chart(chart_text(R"(<datamodel><data id="x" expr="1 +"/></datamodel>
<state id="a"><transition event="e" target="nowhere"/><history id="h"/></state>
<state id="a" colour="RD"><onentry><assign location="y" expr="z"/></onentry></state>
)"),
                                  "a.scxml");
    REQUIRE_FALSE(chart);
    std::vector<int> lines;
    for (const Diagnostic& error : chart.error()) lines.push_back(error.where.line);
    CHECK(lines == std::vector{2, 3, 3, 4, 4, 4, 4});
}

TEST_CASE("Files beyond all bounds are refused quickly") {
    const auto first = [](const std::string& inside) {
        const auto chart = read_chart(chart_text(inside), "a.scxml");
        REQUIRE_FALSE(chart);
        return chart.error().front().message;
    };
    std::string states;
    for (int i = 0; i <= kMaxStates; ++i) states += "<state id=\"s" + std::to_string(i) + "\"/>";
    CHECK_THAT(first(states), Contains("more than 1000 states"));
    CHECK_THAT(first(in_state("<onentry>" + times(kMaxChartElements, "<raise event=\"e\"/>") + "</onentry>")),
               Contains("more than 10000 elements"));
    CHECK_THAT(first("<!--" + std::string(kMaxChartBytes, ' ') + "-->"), Contains("1024 KiB"));
    std::string data;
    for (int i = 0; i <= kMaxDataItems; ++i) data += "<data id=\"d" + std::to_string(i) + "\" expr=\"1\"/>";
    CHECK_THAT(first("<datamodel>" + data + "</datamodel>" + in_state("")),
               Contains("more than 500 data items"));
    CHECK_THAT(first(times(100, "<state id=\"a\">") + times(100, "</state>")), Contains("nest deeper"));
    const auto many = read_chart(
        chart_text(in_state(times(5000, "<transition event=\"e\" target=\"a1 a2 a3 a4\"/>"))), "a.scxml");
    REQUIRE_FALSE(many);
    CHECK(many.error().size() <= 101);
    CHECK_THAT(many.error().back().message, Contains("there are more errors"));
}

}  // namespace halfsplit::model::chart
