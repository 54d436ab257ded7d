#include "ui/view/session_json.h"

#include <catch2/catch.hpp>

using namespace halfsplit;

namespace {

practice::Entry an_entry() {
    practice::Entry entry;
    entry.number = 7;
    entry.action = practice::read_action("measure voltmeter K2.85").value();
    entry.minutes = 0.1 + 0.2;
    entry.clock_min = 12.000000000000002;
    entry.observed.push_back({"voltmeter K2.85", "V", "12.60 V", 12.6, 0.08300000000000018});
    entry.observed.push_back({"P3", "silent", "silent"});
    entry.slips.push_back({"a \"plug\" was handled", "Contacts arc\n\ttoo."});
    entry.told = "Umlauts äöü, a backslash \\ and a line\nend.";
    return entry;
}

}  // namespace

TEST_CASE("A log's entry is one line and reads back to the last bit") {
    const std::string line = view::entry_line(an_entry());
    CHECK(line.find('\n') == std::string::npos);
    const auto again = view::read_entry_line(line);
    REQUIRE(again);
    CHECK((*again == an_entry()));
}

TEST_CASE("A log's head reads back") {
    const view::SessionHead head{"id",      "Ana \"A\"",           "horn-silent", "scenarios/a b.xml",
                                 "content", "2026-01-01T00:00:00Z"};
    CHECK((view::read_head_line(view::head_line(head)).value() == head));
}

TEST_CASE("What is no line of a log is refused, whatever it is") {
    for (const char* text : {"", "{", "[]", "null", "{\"n\":1}", "{\"n\":\"one\",\"do\":\"look\"}",
                             "\xff\xfe", R"({"n":1,"do":"fly away","min":0,"clock":0,"saw":[]})"}) {
        INFO(text);
        CHECK_FALSE(view::read_entry_line(text));
        CHECK_FALSE(view::read_head_line(text));
    }
    CHECK(view::read_head_line(R"({"halfsplit-session":2})").error().find("another version") !=
          std::string::npos);
}
