#include "engine/practice/session/session.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/practice/session/replay.h"
#include "tests/practice/scenario_texts.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using test::kBothSilent;
using test::scenario_text;
using test::silent_horn;

namespace {

Session begun(const ScenarioWithCircuit& read) {
    auto session = Session::begin(read.scenario, read.circuit);
    if (!session) FAIL(session.error());
    return std::move(*session);
}

Entry doing(Session& session, const std::string& text) {
    const auto entry = session.act(read_action(text).value());
    if (!entry) FAIL(text << ": " << entry.error());
    return *entry;
}

std::vector<std::string> slips(Session& session, const std::string& text) {
    std::vector<std::string> what;
    for (const Slip& slip : doing(session, text).slips) what.push_back(slip.what);
    return what;
}

}  // namespace

// By hand, from the circuit file (fuse box 2 min, headlamp 6 min, A-pillar 12 min) and the figures of
// diagnosis::Effort: 0.5 min for a state, 0.5 for a voltage, 15 to mend a contact.
TEST_CASE("Getting at a place costs its minutes once") {
    Session session = begun(silent_horn());
    CHECK(doing(session, "state sounding").minutes == Approx(0.5));
    CHECK(doing(session, "measure voltmeter K2.87").minutes == Approx(2.5));
    CHECK(doing(session, "measure voltmeter K2.85").minutes == Approx(0.5));
    CHECK(doing(session, "measure voltmeter X3.1a E5").minutes == Approx(0.5 + 6 + 12));
    CHECK(doing(session, "look P3").minutes == Approx(0.2));
    CHECK(doing(session, "mend X3.1").minutes == Approx(15));
    CHECK(doing(session, "wait 30").minutes == Approx(0.5));
    CHECK(doing(session, "suspect nothing any more").minutes == 0);
    const int number = session.entries().back().number;
    CHECK(practice::standing_suspicions(session.entries()) == std::vector<int>{number});
    CHECK_FALSE(session.act(*practice::read_action("strike 1")));
    CHECK(doing(session, "strike " + std::to_string(number)).minutes == 0);
    CHECK(practice::standing_suspicions(session.entries()).empty());
    CHECK_FALSE(session.act(*practice::read_action("strike " + std::to_string(number))));
    CHECK(session.clock_min() == Approx(0.5 + 2.5 + 0.5 + 18.5 + 0.2 + 15 + 0.5));
}

TEST_CASE("What is refused costs nothing and is not logged") {
    Session session = begun(silent_horn());
    CHECK_FALSE(session.act(read_action("measure voltmeter K2.99").value()));
    CHECK(session.entries().empty());
    CHECK(session.clock_min() == 0);
}

TEST_CASE("Hints come one after the other, and then no more") {
    Session session = begun(silent_horn());
    CHECK(doing(session, "hint").told == "First.");
    CHECK(doing(session, "hint").told == "Second.");
    CHECK_FALSE(session.act(read_action("hint").value()));
    CHECK(session.hints_taken() == 2);
}

TEST_CASE("Nothing more can be done to a vehicle that was handed back") {
    Session session = begun(silent_horn());
    doing(session, "done");
    CHECK(session.is_over());
    CHECK(session.act(read_action("look").value()).error() == "the vehicle has been handed back");
}

TEST_CASE("Only instruments of the job can be had") {
    std::string text = scenario_text("<fault spec=\"open:X3.1\"/>", kBothSilent);
    text.insert(text.find("<hints>"), "<instruments><instrument id=\"voltmeter\"/></instruments>");
    const auto read = test::scenario_of(text);
    Session session = begun(read);
    CHECK(session.act(read_action("measure clamp W203").value())
              .error()
              .find("there is no clamp at this job") == 0);
    CHECK(session.act(read_action("measure voltmeter K2.87").value()));
}

// The cautions are those of the design and of every workshop (common practice).
TEST_CASE("Cautions that are not heeded are told, those that are are not") {
    Session session = begun(silent_horn());
    CHECK(slips(session, "unplug X3").empty());
    CHECK(slips(session, "plug X3").empty());
    CHECK(slips(session, "measure ohmmeter X3.1a X3.1b").empty());
    doing(session, "state sounding");
    CHECK(slips(session, "unplug X3") == std::vector<std::string>{"a plug was handled with the ignition on"});
    doing(session, "plug X3");
    CHECK(slips(session, "measure ohmmeter K2.87") ==
          std::vector<std::string>{"an ohmmeter was put on a live circuit"});
    CHECK(slips(session, "fit F7 15").empty());
    CHECK(slips(session, "fit F7 15") == std::vector<std::string>{"a second fuse was fitted in F7"});
    CHECK(slips(session, "mend W203").empty());
    CHECK(slips(session, "fit F7 15").empty());
    const std::vector<std::string> larger = slips(session, "fit F7 30");
    CHECK(std::ranges::find(larger, "a fuse of a higher rating was fitted in F7") != larger.end());
    CHECK(slips(session, "bridge F7.1 E5") ==
          std::vector<std::string>{"the jumper's 10 A fuse has blown: it bridged more than a load"});
    CHECK(slips(session, "replace G1") == std::vector<std::string>{"work on G1 with the battery connected"});
}

TEST_CASE("A session done again gives the same entries, and one that was changed is found out") {
    Session session = begun(silent_horn());
    for (const char* line : {"state sounding", "look", "measure voltmeter K2.87", "unplug X3", "mend X3.1",
                             "plug X3", "press S5=pressed", "done"})
        doing(session, line);
    Session again = begun(silent_horn());
    std::vector<int> told;
    REQUIRE(replay(again, session.entries(), [&](int done, int of) {
        told.push_back(done);
        CHECK(of == 8);
    }));
    CHECK(told == std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8});
    CHECK((again.entries() == session.entries()));
    std::vector<Entry> changed = session.entries();
    changed[2].observed[0].value += 1;
    Session third = begun(silent_horn());
    CHECK(replay(third, changed).error().find("step 3") == 0);
}
