#include <catch2/catch.hpp>

#include "engine/model/chart/parse_expression.h"
#include "tests/support/marked.h"
#include "tests/support/times.h"

namespace halfsplit::model::chart {

namespace {

using Catch::Contains;
using test::times;

Scope scope() {
    return {.data = {{"count", ValueType::number},
                     {"ready", ValueType::boolean},
                     {"side", ValueType::text},
                     {"spoiled", std::nullopt},
                     {"later", ValueType::number, false}},
            .states = {"", "driving", "parked"}};
}

/// The message of a wrong expression, whose problem must be where the mark is.
std::string problem_of(const std::string& marked_text) {
    const test::Marked marked = test::unmark(marked_text);
    INFO(marked.text);
    const auto expression = parse_expression(marked.text, scope());
    REQUIRE_FALSE(expression);
    CHECK(expression.error().column == marked.column);
    return expression.error().message;
}

ValueType type_of_text(const std::string& text) {
    const auto expression = parse_expression(text, scope());
    INFO(text << ": " << (expression ? "" : expression.error().message));
    REQUIRE(expression);
    return expression->type();
}

}  // namespace

// The language is our own; what each row expects is its definition in circuits/BEHAVIOUR.md.

TEST_CASE("Every form of expression has the type its operator says") {
    for (const char* text :
         {"true", "false", "ready", "not ready", "ready and not false or true", "count < 3", "count<=3",
          "1 > count", "count >= -1", "count == 3", "ready == true", "side != 'left'",
          "_event == 'in.3.high'", "In('driving')", "In( 'parked' ) and (_in('3') > 6.5)", "not count == 3",
          "spoiled", "spoiled and ready", "(count + 1) * 2 < 7"})
        CHECK(type_of_text(text) == ValueType::boolean);
    for (const char* text :
         {"12.5", "0", ".5", "1e3", "2.5E-3", "count", "-count", "- -1", "1 + 2 - 3", "2 * 3 / 4", "_in('3')",
          "_hz('3')", "_amps('7')", "min(count, 7)", "max(1, -2)", "abs(count - 3)", "((1))", "\t1 +\n2 "})
        CHECK(type_of_text(text) == ValueType::number);
    for (const char* text : {"'on'", "''", "side", "_event", "('a < b and c')", "'\xC3\xA9'"})
        CHECK(type_of_text(text) == ValueType::text);
}

TEST_CASE("A wrong expression is refused at its column with what is expected") {
    const std::vector<std::pair<const char*, const char*>> wrong{
        {"«", "is empty"},
        {"  «", "is empty"},
        {"1 < count «< 3", "not chained; write 1 < x and x < 3"},
        {"1 == 1 «== 1", "not chained"},
        {"count «= 3", "write == to compare"},
        {"count «=> 3", "write =="},
        {"«7,5", "a decimal point is expected, not a comma; write 7.5"},
        {"count > («7,5)", "write 7.5"},
        {"_in('3') > «7,5 and ready", "write 7.5"},
        {"ready «&& ready", "write and"},
        {"ready «|| ready", "write or"},
        {"«!ready", "write not"},
        {"count «<> 3", "write !="},
        {"count «% 3", "no remainder"},
        {"count «^ 3", "no power"},
        {"side == «\"left\"", "single quotes"},
        {"count > 3«; ready", "one expression"},
        {"_in('3') > «12V", "without unit"},
        {"«1.2.3", "one decimal point"},
        {"«1e999", "beyond what a number can hold"},
        {"side == «'left", "not closed"},
        {"1 + «", "ends where a value is expected"},
        {"(1 + 2«", "')' is expected"},
        {"1 + 2«)", "')' does not belong here"},
        {"1 «2", "an operator or the end is expected"},
        {"«* 2", "stands where a value is expected"},
        {"1 < «and", "stands where a value is expected"},
        {"ready == «not ready", "needs parentheses"},
        {"«cuont > 3", "did you mean count?"},
        {"side == «left", "quotes: 'left'"},
        {"«driving", "write In('driving')"},
        {"«_event.name == 'a'", "write _event alone"},
        {"«driver.2 == 'on'", "cannot be read"},
        {"«unit.asleep", "cannot be read"},
        {"In(«'parkd')", "did you mean parked?"},
        {"In(«'')", "there is no state ''"},
        {"«In", "write In('state')"},
        {"_in(«3)", "write _in('pin')"},
        {"_in(«side)", "write _in('pin')"},
        {"_in(«)", "write _in('pin')"},
        {"_in('3' «+ 1)", "')' is expected"},
        {"«_inn('3')", "did you mean _in?"},
        {"«min > 3", "write min(a, b)"},
        {"min(1«)", "write min(a, b)"},
        {"min(1, 2«, 3)", "')' is expected"},
        {"abs(«7,5)", "write 7.5"},
        {"«sqrt(2)", "there is no function sqrt"},
        {"«later + 1", "only data items above it"},
        {"1 + «ready", "'+' works on a number; this is true or false"},
        {"«'a' + 'b'", "'+' works on a number; this is a text"},
        {"«side < 'b'", "'<' works on a number; this is a text"},
        {"«count and ready", "'and' works on true or false; this is a number"},
        {"ready or «'x'", "'or' works on true or false; this is a text"},
        {"not «count", "'not' works on true or false; this is a number"},
        {"-«ready", "'-' works on a number; this is true or false"},
        {"abs(«'a')", "'abs' works on a number; this is a text"},
        {"min(1, «true)", "'min' works on a number; this is true or false"},
        {"count == «'3'", "compares two of one type; this is a text, before it stands a number"},
        {"ready == «1", "compares two of one type"},
        {"count > 3 «\xC3\xA4", "'\xC3\xA4' is unknown here"},
        {"side == '\xC3\xA4\xC3\xB6' and «x", "no data item x"},
        {"count «@ 3", "'@' is unknown here"}};
    for (const auto& [text, message] : wrong) CHECK_THAT(problem_of(text), Contains(message));
}

TEST_CASE("An expression must be of the type it is wanted for") {
    const auto wrong = parse_expression(" count + 1", scope(), ValueType::boolean);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().column == 2);
    CHECK(wrong.error().message == "true or false is expected; this is a number");
    CHECK(parse_expression("count + 1", scope(), ValueType::number));
    // What hangs on a data item whose own expression is wrong has been complained about there.
    CHECK(parse_expression("spoiled", scope(), ValueType::text));
}

TEST_CASE("Nesting is bounded, however it is written") {
    for (const char* open : {"(", "-", "not ", "abs(", "-(", "min(1, "}) {
        const auto deep = parse_expression(times(1500, open), scope());
        REQUIRE_FALSE(deep);
        CHECK_THAT(deep.error().message, Contains("nests deeper than 100 levels"));
    }
    CHECK(parse_expression(times(90, "(") + "1" + times(90, ")"), scope()));
    CHECK_FALSE(parse_expression("ready" + times(500, " or ready"), scope()));
    CHECK(parse_expression("ready" + times(90, " or ready"), scope()));
}

TEST_CASE("An expression knows the pins it asks for and their columns") {
    const auto expression = parse_expression("_in('3') > 2 and _amps('7') < _hz('S4')", scope());
    REQUIRE(expression);
    REQUIRE(expression->pins.size() == 3);
    CHECK(expression->pins[0].pin == "3");
    CHECK(expression->pins[0].column == 5);
    CHECK(expression->pins[1].op == Op::amperes);
    CHECK(expression->pins[2].pin == "S4");
}

TEST_CASE("Data items are named so that expressions can tell them apart") {
    for (const char* good : {"x", "door_open", "n2", "In2", "inside"}) CHECK(is_data_name(good));
    for (const char* bad : {"", "2n", "_x", "a-b", "a.b", "and", "not", "true", "In", "min", "\xC3\xA4"})
        CHECK_FALSE(is_data_name(bad));
}

}  // namespace halfsplit::model::chart
