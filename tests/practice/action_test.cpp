#include "engine/practice/session/action.h"

#include <catch2/catch.hpp>

using namespace halfsplit::practice;

TEST_CASE("What is typed is read, and its canonical text is the same action again") {
    for (const char* text : {"state sounding",
                             "set S1=run",
                             "set speed=50 over 5",
                             "press S5=pressed",
                             "press S5=pressed 3",
                             "wait 2.5",
                             "look",
                             "look F7",
                             "measure voltmeter K2.85",
                             "measure voltmeter K2.85 E5",
                             "record K2.85,W12 5",
                             "pull F7",
                             "push F7",
                             "unplug X3",
                             "plug X3",
                             "bridge K2.30 K2.87",
                             "unbridge",
                             "swap K2 K5",
                             "fit F7 15",
                             "inspect W12",
                             "replace K2",
                             "mend X3.1",
                             "suspect the relay, or W12",
                             "strike 4",
                             "hint",
                             "done"}) {
        INFO(text);
        const auto action = read_action(text);
        REQUIRE(action);
        CHECK(action_text(*action) == text);
        CHECK(read_action(action_text(*action)).value() == *action);
    }
}

TEST_CASE("A setting may be written with or without its sign, and spaces do not count") {
    CHECK(read_action("  set   S1   run ").value() == read_action("set S1=run").value());
    CHECK(read_action("set speed 50 over 5").value() == read_action("set speed=50 over 5").value());
}

TEST_CASE("What nobody can do is refused with what was expected") {
    CHECK(read_action("messure voltmeter K2.85").error().find("did you mean measure") != std::string::npos);
    CHECK(read_action("repair X3.1").error().find("mend a wire") != std::string::npos);
    CHECK(read_action("measure voltmeter").error() == "expected is: measure INSTRUMENT AT [AGAINST]");
    CHECK(read_action("set S1=").error().find("expected is: set") == 0);
    CHECK_FALSE(read_action(""));
    CHECK_FALSE(read_action("done now"));
}

TEST_CASE("Every verb is described and takes a sensible number of words") {
    for (const VerbSpec& spec : verbs()) {
        INFO(spec.word);
        CHECK_FALSE(spec.text.empty());
        CHECK(spec.least <= spec.most);
        CHECK(&spec_of(spec.verb) == &spec);
    }
}
