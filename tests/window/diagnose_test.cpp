#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "engine/diagnosis/sheet/read_readings.h"
#include "tests/support/files.h"
#include "tests/window/headless.h"
#include "ui/files/text_files.h"
#include "ui/window/diagnose/diagnose_mode.h"

namespace halfsplit {

namespace {

namespace fs = std::filesystem;
using test::Headless;
using window::DiagnoseMode;
using window::Key;

/// A folder of its own to work in, with a circuit in it; nothing is left behind.
class OwnFolder {
  public:
    explicit OwnFolder(const std::string& circuit) : before_(fs::current_path()) {
        std::string name = (fs::temp_directory_path() / "halfsplit-diagnose-XXXXXX").string();
        folder_ = mkdtemp(name.data());
        for (const std::string ending : {".circuit.xml", ".scxml"}) {
            const fs::path from = test::project_file("circuits/" + circuit + ending);
            if (fs::exists(from)) fs::copy_file(from, folder_ / from.filename());
        }
        fs::current_path(folder_);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    ~OwnFolder() {
        fs::current_path(before_);
        fs::remove_all(folder_);
    }

    static std::string text_of(const std::string& name) { return test::read_file(name).value_or(""); }
    static void write(const std::string& name, const std::string& text) { std::ofstream(name) << text; }

  private:
    fs::path before_;
    fs::path folder_;
};

DiagnoseMode& diagnosis_of(Headless& hands) {
    return dynamic_cast<DiagnoseMode&>(hands.desk().mode());
}

void open(Headless& hands, const std::string& file) {
    hands.desk().open(file);
    hands.desk().turn_to("diagnose");
    hands.frames(2);
}

/// Until everything that was read has been weighed.
bool wait_for_conclusion(Headless& hands) {
    return hands.frames_until([&] {
        const DiagnoseMode& mode = diagnosis_of(hands);
        const auto& conclusion = mode.reasoning().conclusion();
        return conclusion && !mode.is_lively() && !mode.reasoning().is_concluding() &&
               conclusion->readings == static_cast<int>(mode.notebook().readings().size());
    });
}

void choose_state(Headless& hands, const std::string& id) {
    const auto& states = hands.desk().mode().drawn()->circuit->states;
    const auto state = std::ranges::find(states, id, &model::OperatingState::id);
    hands.click("state");
    hands.click("state:" + std::to_string(state - states.begin()));
    REQUIRE(hands.frames_until([&] { return !diagnosis_of(hands).is_lively(); }));
}

/// On the paper, or in the drawers.
void write_at(Headless& hands, const std::string& where, const std::string& text) {
    hands.click(where);
    hands.frames(4);
    hands.type(text);
    hands.key(Key::enter);
}

std::string told_by_program(const std::string& arguments) {
    const std::string command = std::string(HALFSPLIT_PROGRAM) + " suspects " + arguments + " 2>/dev/null";
    std::string told;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::array<char, 4096> block{};
    for (std::size_t read = 0; (read = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
        told.append(block.data(), read);
    REQUIRE(pclose(pipe) == 0);
    return told;
}

/// The field written in last may have taken them down with it.
void scroll_drawers_up(Headless& hands) {
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:suspects", "drawer:expected"})
        if (hands.is_there(each)) return hands.wheel(each, 1000);
}

/// A silent horn, and what a voltmeter shows along its supply where the horns' fuse is blown: supply up to
/// the fuse, nothing behind it (common practice).
void write_down_a_blown_fuse(Headless& hands) {
    choose_state(hands, "sounding");
    write_at(hands, "part:P3", "silent");
    write_at(hands, "point:K2.87", "0,00");
    write_at(hands, "point:K2.30", "0.01 V");
    write_at(hands, "point:F7.2", "5 mV");
    write_at(hands, "point:F7.1", "12,6");
}

}  // namespace

TEST_CASE("Five readings written down by hand lead to the suspect and the test that the program names") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    write_down_a_blown_fuse(hands);

    const DiagnoseMode& mode = diagnosis_of(hands);
    REQUIRE(mode.notebook().readings().size() == 5);
    CHECK(mode.notebook().readings()[3].value == Approx(0.005));
    CHECK(mode.notebook().readings()[4].value == Approx(12.6));
    REQUIRE(wait_for_conclusion(hands));
    const window::Conclusion& conclusion = *mode.reasoning().conclusion();
    REQUIRE(!conclusion.suspects.empty());
    CHECK(conclusion.suspects.front().name == "blown:F7");

    const std::string told = told_by_program("horn.circuit.xml --readings horn.readings.csv");
    const std::string first = conclusion.suspects.front().share + "  " + conclusion.suspects.front().name;
    CHECK(told.find(first) == told.find_first_not_of(" ", told.find("\n\n") + 2));
    CHECK(told.find(conclusion.next.sentence) != std::string::npos);
    for (const window::SuspectLine& line : conclusion.suspects)
        CHECK(told.find(line.share + "  " + line.name) != std::string::npos);
}

TEST_CASE("The key for the next test brings its state, its row and its field") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    REQUIRE(wait_for_conclusion(hands));
    const auto test = diagnosis_of(hands).reasoning().conclusion()->next.test;
    REQUIRE(test);
    hands.key(Key::n);
    REQUIRE(hands.frames_until([&] { return !diagnosis_of(hands).is_lively(); }));
    hands.frames(5);
    CHECK(diagnosis_of(hands).state() == test->state);
    hands.type("sounds");
    hands.key(Key::enter);
    REQUIRE(diagnosis_of(hands).notebook().readings().size() == 1);
    const auto& reading = diagnosis_of(hands).notebook().readings().front();
    CHECK(reading.state == test->state);
    CHECK(reading.finding.at == test->finding.at);
}

TEST_CASE("The field that has got the keyboard is in sight, in a small window too") {
    const OwnFolder folder("horn");
    Headless hands(1280, 720);
    open(hands, "horn.circuit.xml");
    choose_state(hands, "sounding");
    REQUIRE(wait_for_conclusion(hands));
    for (int i = 0; i < 2; ++i) {
        const std::string point = i == 0 ? "F1.2" : "F2.2";
        hands.click("point:" + point);
        hands.frames(6);
        INFO(point);
        const window::ScreenBox* field = hands.desk().landmarks().find("field:" + point);
        REQUIRE(field != nullptr);
        const window::ScreenBox* paper = hands.desk().landmarks().find("paper");
        REQUIRE(paper != nullptr);
        CHECK(field->top > paper->top);
        CHECK(field->bottom < paper->bottom);
        hands.type("12.6");
        hands.key(Key::enter);
        CHECK(diagnosis_of(hands).notebook().readings().size() == static_cast<std::size_t>(i + 1));
    }
}

TEST_CASE("Nonsense in a field says so there, and nothing is lost") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    choose_state(hands, "sounding");
    write_at(hands, "point:K2.87", "0.02");
    const std::string kept = OwnFolder::text_of("horn.readings.csv");
    REQUIRE(kept.find("K2.87") != std::string::npos);

    write_at(hands, "point:K2.30", "twelve");
    CHECK(hands.says("'twelve' is no reading; a voltage such as 12.3 or 45 mV is expected"));
    CHECK(hands.is_there("trouble:K2.30"));
    CHECK(diagnosis_of(hands).notebook().readings().size() == 1);
    CHECK(OwnFolder::text_of("horn.readings.csv") == kept);

    write_at(hands, "part:P3", "purple");
    CHECK(hands.says("'purple' is not what P3 can be found to do; sounds, faint or silent is expected"));
    CHECK(diagnosis_of(hands).notebook().readings().size() == 1);

    // The field has kept the keyboard, and what stands in it is chosen: typing writes over it.
    hands.frames(4);
    hands.type("faint");
    hands.key(Key::enter);
    CHECK(diagnosis_of(hands).notebook().readings().size() == 2);
    CHECK_FALSE(hands.says("purple"));
}

TEST_CASE("Readings are there again when the circuit is opened the next time") {
    const OwnFolder folder("horn");
    {
        Headless hands;
        open(hands, "horn.circuit.xml");
        write_down_a_blown_fuse(hands);
    }
    Headless hands;
    open(hands, "horn.circuit.xml");
    CHECK(hands.says("5 readings from horn.readings.csv"));
    CHECK(diagnosis_of(hands).notebook().readings().size() == 5);
    const auto* circuit = hands.desk().mode().drawn()->circuit.get();
    CHECK(circuit->states[static_cast<std::size_t>(diagnosis_of(hands).state())].id == "sounding");
}

TEST_CASE("A file of the readings' name that holds something else is put aside, not written over") {
    const OwnFolder folder("horn");
    OwnFolder::write("horn.readings.csv", "what,ever\n1,2\n");
    Headless hands;
    open(hands, "horn.circuit.xml");
    CHECK(hands.says("holds something else"));
    CHECK(OwnFolder::text_of("horn.readings.csv") == "what,ever\n1,2\n");
    choose_state(hands, "sounding");
    write_at(hands, "point:K2.87", "0.02");
    CHECK(OwnFolder::text_of("horn.unread.csv") == "what,ever\n1,2\n");
    CHECK(OwnFolder::text_of("horn.readings.csv").find("K2.87") != std::string::npos);
}

TEST_CASE("An emptied field takes its reading back, and beginning anew asks first") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    choose_state(hands, "sounding");
    write_at(hands, "point:K2.87", "0.02");
    write_at(hands, "point:K2.30", "12.4");
    hands.click("point:K2.30");
    hands.frames(4);
    hands.key(Key::del);
    hands.key(Key::enter);
    REQUIRE(diagnosis_of(hands).notebook().readings().size() == 1);
    CHECK(diagnosis_of(hands).notebook().readings().front().finding.at == "K2.87");

    // What is concluded would push the drawers about.
    REQUIRE(wait_for_conclusion(hands));
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:expected", "drawer:suspects"})
        if (hands.is_there(each)) hands.click(each);
    hands.click("drawer:readings");
    hands.click("anew");
    CHECK(diagnosis_of(hands).notebook().readings().size() == 1);
    hands.click("anew:no");
    hands.click("anew");
    hands.click("anew:yes");
    CHECK(diagnosis_of(hands).notebook().readings().empty());
    CHECK(OwnFolder::text_of("horn.readings.csv").find("K2.87") == std::string::npos);
}

TEST_CASE("What the customer complained of is ticked, kept, and stays so when it is read again") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    choose_state(hands, "sounding");
    write_at(hands, "part:P3", "silent");
    REQUIRE(wait_for_conclusion(hands));
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:suspects"})
        if (hands.is_there(each)) hands.click(each);
    if (!hands.is_there("complained:sounding:P3")) hands.click("drawer:readings");
    hands.click("complained:sounding:P3");
    REQUIRE(diagnosis_of(hands).notebook().readings().front().is_complaint);
    CHECK(OwnFolder::text_of("horn.readings.csv").find("silent,yes") != std::string::npos);
    write_at(hands, "part:P3", "faint");
    CHECK(OwnFolder::text_of("horn.readings.csv").find("faint,yes") != std::string::npos);
    REQUIRE(wait_for_conclusion(hands));
    hands.click("complained:sounding:P3");
    CHECK(OwnFolder::text_of("horn.readings.csv").find("yes") == std::string::npos);
}

TEST_CASE("A suspect that was looked for and is not there is none any more") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    write_down_a_blown_fuse(hands);
    REQUIRE(wait_for_conclusion(hands));
    scroll_drawers_up(hands);
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:expected"}) hands.click(each);
    hands.click("suspect:0");
    hands.frames(2);
    CHECK(hands.says("explains 5 of 5 readings"));
    hands.click("clear:blown:F7");
    REQUIRE(wait_for_conclusion(hands));
    const window::Conclusion& conclusion = *diagnosis_of(hands).reasoning().conclusion();
    for (const window::SuspectLine& line : conclusion.suspects) CHECK(line.name != "blown:F7");
    const std::string told =
        told_by_program("horn.circuit.xml --readings horn.readings.csv --cleared blown:F7");
    const std::string first = conclusion.suspects.front().share + "  " + conclusion.suspects.front().name;
    CHECK(told.find(first) == told.find_first_not_of(" ", told.find("\n\n") + 2));
}

TEST_CASE("Readings can be written down while faults are predicted, and predicting can be stopped") {
    const OwnFolder folder("entry-step");
    Headless hands;
    open(hands, "entry-step.circuit.xml");
    REQUIRE(hands.frames_until([&] { return !diagnosis_of(hands).is_lively(); }));
    REQUIRE(diagnosis_of(hands).reasoning().is_predicting());
    write_at(hands, "point:F26.2", "12.5");
    CHECK(diagnosis_of(hands).notebook().readings().size() == 1);
    CHECK(hands.says("as expected"));
    hands.click("predict:stop");
    CHECK_FALSE(diagnosis_of(hands).reasoning().is_predicting());
    CHECK(diagnosis_of(hands).reasoning().consultation() == nullptr);
    hands.frames(3);
    CHECK(hands.says("No suspects without predictions"));
}

TEST_CASE("A table that was filled in elsewhere is read in by its path, and one that is wrong adds nothing") {
    const OwnFolder folder("horn");
    OwnFolder::write("by-hand.csv", "state;at;measured\nsounding;K2.87;0,02\nsounding;P3;silent\n");
    OwnFolder::write("wrong.csv", "state,at,measured\nsounding,K2.30,12.4\nsounding,K9.1,12\n");
    Headless hands;
    open(hands, "horn.circuit.xml");
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:expected", "drawer:suspects"})
        hands.click(each);
    hands.click("drawer:print");
    const auto read_in = [&](const std::string& path) {
        hands.click("read-in");
        hands.key(Key::a, true);
        hands.type(path);
        hands.key(Key::enter);
    };
    read_in("wrong.csv");
    CHECK(hands.says("wrong.csv:3:10: error: the circuit has no point 'K9.1'"));
    CHECK(diagnosis_of(hands).notebook().readings().empty());
    read_in("by-hand.csv");
    CHECK(diagnosis_of(hands).notebook().readings().size() == 2);
    CHECK_FALSE(hands.says("K9.1"));
    CHECK(OwnFolder::text_of("horn.readings.csv").find("K2.87") != std::string::npos);
}

TEST_CASE("A printed table with the readings in it is read back as those readings") {
    const OwnFolder folder("horn");
    Headless hands;
    open(hands, "horn.circuit.xml");
    write_down_a_blown_fuse(hands);
    for (const char* each : {"drawer:vehicle", "drawer:next", "drawer:expected", "drawer:suspects"})
        if (hands.is_there(each)) hands.click(each);
    hands.click("drawer:print");
    hands.click("print:table");
    REQUIRE(hands.frames_until([&] { return hands.is_there("print:told"); }));
    CHECK(hands.says((fs::current_path() / "horn.sheet.csv").string()));
    hands.click("print:page");
    REQUIRE(hands.frames_until([&] { return hands.is_there("print:told"); }));
    CHECK(OwnFolder::text_of("horn.sheet.html").find("<html") != std::string::npos);

    const auto circuit = hands.desk().mode().drawn()->circuit;
    const auto read = diagnosis::read_readings(*circuit, OwnFolder::text_of("horn.sheet.csv"), "");
    REQUIRE(read);
    for (const diagnosis::FilledRow& row : diagnosis_of(hands).notebook().readings())
        CHECK(std::ranges::any_of(*read, [&](const diagnosis::FilledRow& each) {
            return each.state == row.state && each.finding == row.finding && each.value == row.value;
        }));
    CHECK(read->size() == diagnosis_of(hands).notebook().readings().size());
}

}  // namespace halfsplit
