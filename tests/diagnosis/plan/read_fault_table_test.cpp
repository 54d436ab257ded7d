#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/diagnosis/plan/read_fault_table.h"
#include "tests/diagnosis/plan/tables.h"
#include "tests/support/marked.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis::plan;
using test::table_of;

namespace {

/// The one error of a table, which must stand where the snippet marks it.
std::string error_at_mark(const std::string& snippet) {
    const test::Marked marked = test::unmark(snippet);
    const auto table = read_fault_table(marked.text, "a.csv");
    INFO(snippet);
    REQUIRE_FALSE(table);
    INFO(to_text(table.error().front()));
    CHECK(table.error().size() == 1);
    CHECK(table.error().front().where.file == "a.csv");
    CHECK(table.error().front().where.line == marked.line);
    CHECK(table.error().front().where.column == marked.column);
    return table.error().front().message;
}

void check_error(const std::string& snippet, const std::string& part) {
    const std::string message = error_at_mark(snippet);
    INFO(message);
    CHECK(message.find(part) != std::string::npos);
}

}  // namespace

TEST_CASE("A table is read with its names, normalised priors, costs and outcomes") {
    const FaultTable table =
        table_of("fault,prior,lamp,volts\ncost,,1,2.5\nopen,3,dark,0\nsound,1,lit,12.1\n");
    REQUIRE(table.faults.size() == 2);
    CHECK(table.faults[0].name == "open");
    CHECK(table.faults[0].prior == 0.75);
    CHECK(table.faults[1].prior == 0.25);
    REQUIRE(table.tests.size() == 2);
    CHECK(table.tests[1].name == "volts");
    CHECK(table.tests[1].cost == 2.5);
    CHECK(table.tests[1].outcomes == std::vector<std::string>{"0", "12.1"});
    CHECK(table.outcome(1, 0) == 1);
    CHECK(table_of("fault,prior,t\na,1,x\n").tests[0].cost == 1);
}

TEST_CASE("Equal text is the same outcome and nothing else is") {
    const FaultTable table = table_of("fault,prior,t\na,1,0\nb,1, 0 \nc,1,\"0\"\nd,1,0.0\ne,1,O\n");
    CHECK(table.tests[0].outcomes == std::vector<std::string>{"0", "0.0", "O"});
}

TEST_CASE("A spreadsheet's version of a table reads the same") {
    const FaultTable plain = table_of("fault,prior,t,u\ncost,,1,0.5\na,0.25,x,1\nb,0.75,y,1\n");
    for (const std::string text :
         {"\xEF\xBB\xBF"
          "fault;prior;t;u\r\ncost;;1;0,5\r\na;0,25;x;1\r\nb;0,75;y;1\r\n",
          "Fault;Prior;t;u\r\nCost;;1;0,5\r\n\"a\";0,25;\"x\";1\r\nb;0,75;y;1\r\n;;;\r\n\r\n",
          "fault\tprior\tt\tu\ncost\t\t1\t0.5\na\t0.25\tx\t1\nb\t0.75\ty\t1",
          "\n\nfault , prior, t, u\ncost,, 1, 0.5\na, 0.25, x, 1\n\nb, 0.75, y, 1\n\n\n"}) {
        INFO(text);
        const FaultTable table = table_of(text);
        REQUIRE(table.faults.size() == 2);
        CHECK(table.faults[0].prior == plain.faults[0].prior);
        CHECK(table.tests[1].cost == 0.5);
        CHECK(table.tests[0].outcomes == plain.tests[0].outcomes);
        CHECK(table.cells == plain.cells);
    }
}

TEST_CASE("Whatever is wrong with a table is said where it is") {
    check_error("«", "the table is empty");
    check_error("«name,prior,t\na,1,x\n", "'fault' is expected");
    check_error("fault,«rate,t\na,1,x\n", "'prior'");
    check_error("fault,prior«\na,1\n", "no tests");
    check_error("«fault,prior,t\n", "no faults");
    check_error("fault,prior,t,«t\na,1,x,x\n", "second test is called 't'");
    check_error("fault,prior,t,«\na,1,x,x\n", "test has no name");
    check_error("fault,prior,t\na,1,x\n«a,1,y\n", "second fault is called 'a', as in line 2");
    check_error("fault,prior,t\na,«-1,x\n", "0 to");
    check_error("fault,prior,t\na,«nan,x\n", "not a number");
    check_error("fault,prior,t\na,«1e999,x\n", "not a number");
    check_error("fault,prior,t\na,«,x\n", "empty");
    check_error("fault,prior,t\n«,1,x\n", "fault has no name");
    check_error("fault,prior,t\ncost,,«-2\na,1,x\n", "0 to");
    check_error("fault,prior,t\ncost,,«x\na,1,x\n", "cost is wrong");
    check_error("fault,prior,t\ncost,«3,1\na,1,x\n", "no prior");
    check_error("fault,prior,t\na,1,x\n«cost,,1\n", "right behind the header");
    check_error("fault,prior,t,u\na,1,x«\nb,1,x,y\n", "3 cells; 4 are expected");
    check_error("fault,prior,t\na,1,x,«y\nb,1,x\n", "4 cells; 3 are expected");
    check_error("fault,prior,t\n\xC3\xA4\xC3\xB6,1,«\nb,1,x\n", "outcome is empty");
    check_error("«fault,prior,t\na,0,x\nb,0,y\n", "all priors are 0");
    check_error("fault,prior,t\na,1,«\"x\n", "not closed");
    check_error("fault,prior,t\na,1,«\"x\ny\"\n", "in one line");
    check_error("fault,prior,t\na,1,«\xFF\n", "UTF-8");
}

TEST_CASE("All that is wrong with a table is said at once, in order, up to a hundred") {
    const auto table = read_fault_table("fault,prior,t,t\na,x,1,2\na,-1,1\nb,1,,3\n", "a.csv");
    REQUIRE_FALSE(table);
    std::vector<std::pair<int, int>> places;
    for (const Diagnostic& each : table.error()) places.emplace_back(each.where.line, each.where.column);
    CHECK(places == std::vector<std::pair<int, int>>{{1, 15}, {2, 3}, {3, 1}, {3, 3}, {3, 7}, {4, 5}});
    std::string many = "fault,prior,t\n";
    for (int i = 0; i < 1000; ++i) many += "a,x,\n";
    CHECK(read_fault_table(many, "a.csv").error().size() == 100);
}

TEST_CASE("A table beyond all reason is refused before it fills memory") {
    std::string wide = "fault,prior";
    for (std::size_t test = 0; test < 10'000; ++test) wide += ",t" + std::to_string(test);
    wide += "\n";
    std::string row;
    for (int test = 0; test < 10'000; ++test) row += ",0";
    for (int fault = 0; fault <= 2000; ++fault) wide += "f" + std::to_string(fault) + ",1" + row + "\n";
    const auto table = read_fault_table(wide, "a.csv");
    REQUIRE_FALSE(table);
    CHECK(table.error().size() == 1);
    CHECK(table.error().front().where.line == 2002);
    CHECK(table.error().front().message.find("too large") != std::string::npos);
}

TEST_CASE("Priors near the end of what a number holds are normalised all the same") {
    const FaultTable table = table_of("fault,prior,t\na,1e300,x\nb,1e300,y\nc,1e-300,z\n");
    CHECK(table.faults[0].prior == 0.5);
    CHECK(table.faults[2].prior == 0);
}
