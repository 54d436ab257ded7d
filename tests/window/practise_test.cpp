#include <sys/resource.h>
#include <catch2/catch.hpp>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <set>

#include "engine/practice/session/session.h"
#include "tests/support/files.h"
#include "tests/support/temporary_folder.h"
#include "tests/window/headless.h"
#include "ui/files/practice_log.h"
#include "ui/window/practise/practise_mode.h"

namespace halfsplit {

namespace {

namespace fs = std::filesystem;
using practice::Entry;
using test::Headless;
using window::Key;
using window::PractiseMode;

const char* const kLog = "horn-silent.session.jsonl";
const char* const kHidden = "open:X3.1";

/// A folder to work in, with copies of the horn's circuit and its jobs.
class Workshop {
  public:
    Workshop() : folder_("practise-window"), before_(fs::current_path()) {
        fs::create_directories(folder_.file("circuits"));
        fs::create_directories(folder_.file("scenarios"));
        fs::copy_file(test::project_file("circuits/horn.circuit.xml"),
                      folder_.file("circuits/horn.circuit.xml"));
        fs::copy_file(test::project_file("scenarios/horn-silent.scenario.xml"), job());
        fs::current_path(folder_.path());
    }
    Workshop(const Workshop&) = delete;
    Workshop& operator=(const Workshop&) = delete;
    ~Workshop() { fs::current_path(before_); }

    std::string job() const { return folder_.file("scenarios/horn-silent.scenario.xml"); }

  private:
    test::TemporaryFolder folder_;
    fs::path before_;
};

const PractiseMode& practise(Headless& hands) {
    return dynamic_cast<const PractiseMode&>(hands.desk().mode());
}

std::unique_ptr<Headless> practising(const Workshop& workshop, int width = 1600, int height = 1000) {
    auto hands = std::make_unique<Headless>(width, height);
    hands->desk().open(workshop.job());
    hands->frames(3);
    return hands;
}

/// All of it, beside the paper: what hangs over the edge cannot be clicked.
bool is_in_sight(const window::Landmarks& all, const std::string& name) {
    const window::ScreenBox* box = all.find(name);
    const window::ScreenBox* paper = all.find("paper");
    return box != nullptr && paper != nullptr && box->top >= paper->top && box->bottom <= paper->bottom;
}

std::string something_in_the_trolley(Headless& hands) {
    const window::Landmarks& all = hands.desk().landmarks();
    for (const auto& [name, box] : all.all())
        if (is_in_sight(all, name) && box.left > all.find("paper")->right) return name;
    return "paper";
}

/// Clicks what may have to be scrolled to first, as a person would.
void reach(Headless& hands, const std::string& name) {
    // What was read out before had all drawers open.
    hands.frames(2);
    const auto sees_it = [&] { return is_in_sight(hands.desk().landmarks(), name); };
    if (!sees_it()) hands.wheel(something_in_the_trolley(hands), 1000);
    for (int i = 0; i < 200 && !sees_it(); ++i) hands.wheel(something_in_the_trolley(hands), -1);
    hands.click(name);
    hands.frames_until(
        [&] { return !hands.desk().is_lively() || practise(hands).job()->session().is_over(); });
}

void bring_to_state(Headless& hands, int state) {
    reach(hands, "state");
    hands.frames(3);
    hands.click("state:" + std::to_string(state));
    reach(hands, "bring");
}

void measure_at(Headless& hands, const std::string& point) {
    hands.click("point:" + point);
    hands.frames(2);
    reach(hands, "measure");
}

void type_action(Headless& hands, const std::string& text) {
    hands.key(Key::t);
    hands.frames(3);
    hands.type(text);
    hands.key(Key::enter);
    hands.frames_until([&] { return !hands.desk().is_lively(); });
}

/// What the terminal would have written down.
std::vector<Entry> entries_of(const Workshop& workshop, const std::vector<std::string>& actions) {
    const auto scenario = files::read_scenario_on_disk(workshop.job());
    REQUIRE(scenario);
    auto session = practice::Session::begin(scenario->read.scenario, scenario->read.circuit);
    REQUIRE(session);
    for (const std::string& text : actions) {
        INFO(text);
        const auto action = practice::read_action(text);
        REQUIRE(action);
        REQUIRE(session->act(*action));
    }
    return session->entries();
}

bool says_the_fault(Headless& hands) {
    if (hands.says(kHidden)) return true;
    for (const auto& [where, words] : practise(hands).marks().doubts)
        if (words.find(kHidden) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST_CASE("A job is solved by clicks alone, and its log is what the terminal would have written") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    REQUIRE(practise(*hands).job() != nullptr);
    for (const char* drawer : {"drawer:suspects", "drawer:hints"}) reach(*hands, drawer);
    CHECK_FALSE(says_the_fault(*hands));
    bring_to_state(*hands, 3);
    CHECK_FALSE(says_the_fault(*hands));
    for (const char* point : {"K2.87", "X3.1b", "X3.1a"}) {
        measure_at(*hands, point);
        CHECK_FALSE(says_the_fault(*hands));
    }
    bring_to_state(*hands, 0);
    CHECK(hands->says("taken before the vehicle was changed (step 5: state key-off)"));
    reach(*hands, "do:mend X3.1");
    bring_to_state(*hands, 3);
    CHECK(hands->says("P3 Horn, low note: sounds"));
    CHECK_FALSE(says_the_fault(*hands));
    reach(*hands, "done");
    CHECK_FALSE(practise(*hands).job()->session().is_over());
    reach(*hands, "done:yes");
    REQUIRE(practise(*hands).job()->session().is_over());
    REQUIRE(hands->frames_until([&] { return practise(*hands).debrief().told() != nullptr; }, 100000));
    CHECK(practise(*hands).debrief().told()->debrief.verdict.is_right);
    hands->frames(3);
    CHECK(hands->says("Right: the vehicle is in order."));
    CHECK(hands->says(kHidden));

    const auto logged = files::read_session(kLog);
    REQUIRE(logged);
    CHECK(logged->entries == entries_of(workshop, {"state sounding", "measure voltmeter K2.87",
                                                   "measure voltmeter X3.1b", "measure voltmeter X3.1a",
                                                   "state key-off", "mend X3.1", "state sounding", "done"}));
    CHECK(logged->head.scenario == "horn-silent");

    reach(*hands, "debrief:write");
    const auto page = test::read_file("horn-silent.debrief.html");
    REQUIRE(page);
    CHECK(page->find("<html") != std::string::npos);
    CHECK(hands->says("horn-silent.debrief.html"));
}

TEST_CASE("The debrief's paper shows what was known after a step and who was under suspicion then") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    for (const char* text : {"state sounding", "measure voltmeter K2.87", "pull F7", "push F7",
                             "measure voltmeter X3.1b", "mend X3.1", "done"})
        type_action(*hands, text);
    REQUIRE(hands->frames_until([&] { return practise(*hands).debrief().told() != nullptr; }, 100000));
    hands->frames(3);
    reach(*hands, "debrief:row:2");
    window::Marks marks = practise(*hands).marks();
    CHECK(marks.chosen == window::Pick{window::Pick::Kind::point, "K2.87"});
    CHECK(marks.notes.contains("K2.87"));
    CHECK(marks.away.empty());
    // The relay's output has its voltage: what lies behind it is left, the broken contact among it.
    CHECK(marks.doubts.contains("X3"));
    CHECK_FALSE(marks.doubts.contains("F8"));
    hands->key(Key::period);
    marks = practise(*hands).marks();
    CHECK(marks.away.at("F7") == "pulled");
    CHECK(marks.notes.empty());
    hands->key(Key::comma);
    CHECK(practise(*hands).marks().away.empty());
}

TEST_CASE("Everything can be typed, and what is wrong with it is told where it was typed") {
    const Workshop workshop;
    const auto hands = practising(workshop, 1280, 720);
    type_action(*hands, "measure voltmeter K2.78");
    CHECK(practise(*hands).job()->entries().empty());
    CHECK(hands->says("K2.78"));
    type_action(*hands, "wiggle X3");
    CHECK(hands->says("'wiggle' is nothing one can do here"));
    hands->key(Key::t);
    hands->frames(3);
    hands->type("mea");
    hands->key(Key::tab);
    hands->type("vo");
    hands->key(Key::tab);
    hands->type("k2.8");
    CHECK(hands->is_there("offer:K2.87"));
    hands->type("7");
    hands->key(Key::tab);
    hands->key(Key::enter);
    hands->frames_until([&] { return !hands->desk().is_lively(); });
    hands->key(Key::escape);
    REQUIRE(practise(*hands).job()->entries().size() == 1);
    CHECK(practise(*hands).job()->entries().front().action ==
          practice::Action{practice::Verb::measure, {"voltmeter", "K2.87"}});
}

TEST_CASE("A session goes on where its log ends, and a suspect is marked on the paper") {
    const Workshop workshop;
    {
        const auto hands = practising(workshop);
        type_action(*hands, "set S1=run");
        type_action(*hands, "suspect X3 is broken");
        CHECK(practise(*hands).marks().doubts.contains("X3"));
    }
    const auto hands = practising(workshop);
    REQUIRE(practise(*hands).job() != nullptr);
    CHECK(practise(*hands).job()->entries().size() == 2);
    CHECK(practise(*hands).job()->session().clock_min() > 0);
    CHECK(practise(*hands).marks().doubts.contains("X3"));
    reach(*hands, "drawer:suspects");
    reach(*hands, "suspect:strike:2");
    CHECK_FALSE(practise(*hands).marks().doubts.contains("X3"));
    CHECK(practise(*hands).job()->entries().back().action == *practice::read_action("strike 2"));
}

TEST_CASE("A button that springs back is pressed, or held by a helper") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    reach(*hands, "control:S1=run");
    reach(*hands, "control:S5=pressed");
    reach(*hands, "hold:1");
    reach(*hands, "control:S5=pressed");
    reach(*hands, "hold:2");
    reach(*hands, "control:S5=pressed");
    reach(*hands, "control:S5=released");
    CHECK(practise(*hands).job()->entries() ==
          entries_of(workshop, {"set S1=run", "press S5=pressed", "press S5=pressed 5", "set S5=pressed",
                                "set S5=released"}));
}

TEST_CASE("Parts are pulled, bridged and fitted by what is in hand") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    hands->click("part:F7");
    reach(*hands, "do:pull F7");
    CHECK(practise(*hands).marks().away.at("F7") == "pulled");
    reach(*hands, "fuse:rating");
    hands->click("fuse:rating:7");
    reach(*hands, "fuse:fit");
    CHECK(practise(*hands).marks().away.empty());
    hands->click("point:K2.87");
    reach(*hands, "jumper:here");
    hands->click("point:K2.30");
    reach(*hands, "jumper:there");
    reach(*hands, "do:unbridge");
    hands->click("wire:W203");
    reach(*hands, "do:inspect W203");
    CHECK(practise(*hands).job()->entries() ==
          entries_of(workshop, {"pull F7", "fit F7 15", "bridge K2.87 K2.30", "unbridge", "inspect W203"}));
}

TEST_CASE("A log that another program writes is left to it, and the window says so") {
    const Workshop workshop;
    const auto scenario = files::read_scenario_on_disk(workshop.job());
    REQUIRE(scenario);
    const auto other = files::open_log(kLog, *scenario, workshop.job(), "somebody else");
    REQUIRE(other);
    Headless hands;
    hands.desk().open(workshop.job());
    hands.desk().turn_to("practise");
    hands.frames(3);
    CHECK(hands.desk().mode().drawn() == nullptr);
    CHECK(hands.says("another program writes this session"));
}

TEST_CASE("A job that is changed on the disk meanwhile is told, and the session keeps to what was read") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    type_action(*hands, "set S1=run");
    std::string text = *test::read_file(workshop.job());
    text.replace(text.find("84000"), 5, "85000");
    std::ofstream(workshop.job()) << text;
    hands->desk().open(workshop.job());
    hands->frames(3);
    CHECK(hands->says("has changed on the disk"));
    type_action(*hands, "set S5=pressed");
    CHECK(practise(*hands).job()->entries().size() == 2);
    CHECK(practise(*hands).job()->log_path() == kLog);
    reach(*hands, "anew");
    hands->frames(3);
    CHECK(practise(*hands).job()->entries().empty());
    CHECK(practise(*hands).job()->log_path() == "horn-silent-2.session.jsonl");
    CHECK(files::read_session(kLog)->entries.size() == 2);
}

TEST_CASE("A debrief that nobody waits for can be asked for again") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    type_action(*hands, "done");
    if (hands->is_there("debrief:leave")) hands->click("debrief:leave");
    hands->frames(3);
    if (hands->is_there("debrief:begin")) {
        CHECK_FALSE(practise(*hands).debrief().is_working());
        hands->click("debrief:begin");
    }
    REQUIRE(hands->frames_until([&] { return practise(*hands).debrief().told() != nullptr; }, 100000));
    hands->frames(3);
    CHECK(hands->says("Not in order: the vehicle still has open:X3.1."));
}

TEST_CASE("On a full disk nothing is done, and it can be done again when there is room") {
    const Workshop workshop;
    const auto hands = practising(workshop);
    type_action(*hands, "set S1=run");
    const auto before = fs::file_size(kLog);
    std::signal(SIGXFSZ, SIG_IGN);
    rlimit limit{};
    REQUIRE(getrlimit(RLIMIT_FSIZE, &limit) == 0);
    const rlimit full{before + 10, limit.rlim_max};
    REQUIRE(setrlimit(RLIMIT_FSIZE, &full) == 0);
    type_action(*hands, "set S5=pressed");
    REQUIRE(setrlimit(RLIMIT_FSIZE, &limit) == 0);
    CHECK(hands->says("cannot be written, so nothing was done"));
    CHECK(practise(*hands).job()->session().entries().size() == 1);
    CHECK(fs::file_size(kLog) == before);
    type_action(*hands, "set S5=pressed");
    CHECK(practise(*hands).job()->entries() == entries_of(workshop, {"set S1=run", "set S5=pressed"}));
    const auto logged = files::read_session(kLog);
    REQUIRE(logged);
    CHECK(logged->entries.size() == 2);
}

}  // namespace halfsplit
