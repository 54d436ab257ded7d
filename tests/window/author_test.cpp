#include <catch2/catch.hpp>
#include <filesystem>
#include <string_view>

#include "engine/practice/scenario/read_scenario.h"
#include "tests/support/files.h"
#include "tests/support/temporary_folder.h"
#include "tests/window/headless.h"
#include "ui/files/text_files.h"
#include "ui/window/author/author_mode.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit {

namespace {

namespace fs = std::filesystem;
using test::Headless;

/// An empty working folder with the horns' circuit.
class OwnWorkshop {
  public:
    OwnWorkshop() : folder_("author-window"), before_(fs::current_path()) {
        fs::copy_file(test::project_file("circuits/horn.circuit.xml"), folder_.file("horn.circuit.xml"));
        fs::current_path(folder_.path());
    }
    OwnWorkshop(const OwnWorkshop&) = delete;
    OwnWorkshop& operator=(const OwnWorkshop&) = delete;
    ~OwnWorkshop() { fs::current_path(before_); }

  private:
    test::TemporaryFolder folder_;
    fs::path before_;
};

/// Its name, with the circuit where it looks for it.
std::string take_job_along(const std::string& name) {
    fs::create_directories("circuits");
    fs::create_directories("scenarios");
    fs::copy_file("horn.circuit.xml", "circuits/horn.circuit.xml");
    const std::string path = "scenarios/" + name;
    fs::copy_file(test::project_file("scenarios/" + name), path);
    return path;
}

const window::AuthorMode& author(Headless& hands) {
    return dynamic_cast<const window::AuthorMode&>(hands.desk().mode());
}

}  // namespace

TEST_CASE("A fault is about the part it names and about no other that begins the same") {
    CHECK(window::is_about("open:K2.85", "K2"));
    CHECK(window::is_about("swapped:K2.30+K2.85", "K2"));
    CHECK(window::is_about("short-between:W5+W7", "W7"));
    CHECK(window::is_about("high-resistance:W1003=5", "W1003"));
    CHECK_FALSE(window::is_about("open:K21.85", "K2"));
    CHECK_FALSE(window::is_about("open:K2.85", "K"));
    CHECK_FALSE(window::is_about("blown:F7", "blown"));
}

TEST_CASE("A job made by clicks is a scenario file that reads back with its fault and its complaint") {
    const OwnWorkshop workshop;
    Headless hands;
    hands.desk().open("horn.circuit.xml");
    hands.desk().turn_to("author");
    hands.frames(3);
    hands.click("part:F8");
    hands.click("choose:blown:F8");
    REQUIRE(hands.frames_until([&] { return hands.is_there("noticed"); }, 100000));
    CHECK(hands.says("silent"));
    hands.click("drawer:wrong");
    hands.click("prove");
    REQUIRE(hands.frames_until([&] { return hands.is_there("proved"); }, 1000000));
    hands.frames(3);
    CHECK((hands.says("Fair: ") || hands.says("Not fair yet: ")));
    hands.wheel("proved", -20);
    hands.click("keep");
    hands.frames(3);
    CHECK(hands.says("Kept in horn-job.scenario.xml"));
    const auto read = practice::read_scenario("horn-job.scenario.xml", files::file_texts());
    REQUIRE(read);
    REQUIRE(read->scenario.faults.size() == 1);
    CHECK(read->scenario.faults.front().text == "blown:F8");
    CHECK_FALSE(read->scenario.symptoms.empty());
    CHECK_FALSE(read->scenario.job_card.complaint.empty());
    // What was read out had everything unfolded.
    hands.frames(3);
    hands.click("keep");
    hands.frames(3);
    CHECK(hands.says("Kept in horn-job.scenario.xml"));
}

TEST_CASE("A job that was opened is changed and kept in its own file, with all that was not touched") {
    const OwnWorkshop workshop;
    const std::string path = take_job_along("horn-silent.scenario.xml");
    const auto before = practice::read_scenario(path, files::file_texts());
    REQUIRE(before);
    Headless hands;
    hands.desk().turn_to("author");
    hands.desk().open(path);
    REQUIRE(hands.frames_until([&] { return hands.is_there("prove"); }, 1000000));
    CHECK(hands.says(before->scenario.faults.front().text));
    hands.click("drawer:wrong");
    hands.click("drawer:card");
    hands.frames(3);
    hands.click("level:3");
    hands.click("drawer:card");
    hands.click("drawer:complaint");
    hands.frames(3);
    hands.click("keep");
    hands.frames(3);
    CHECK(hands.says("Kept in " + path));
    const auto after = practice::read_scenario(path, files::file_texts());
    REQUIRE(after);
    CHECK(after->scenario.level == 3);
    CHECK(after->scenario.id == before->scenario.id);
    CHECK(after->scenario.title == before->scenario.title);
    CHECK(after->scenario.hints.size() == before->scenario.hints.size());
    CHECK(after->scenario.instruments == before->scenario.instruments);
    REQUIRE(after->scenario.faults.size() == before->scenario.faults.size());
    CHECK(after->scenario.faults.front().text == before->scenario.faults.front().text);
    CHECK(after->scenario.symptoms.size() == before->scenario.symptoms.size());
}

TEST_CASE("What somebody else changed in a job's file meanwhile is not written over") {
    const OwnWorkshop workshop;
    const std::string path = take_job_along("horn-silent.scenario.xml");
    Headless hands;
    hands.desk().turn_to("author");
    hands.desk().open(path);
    REQUIRE(hands.frames_until([&] { return hands.is_there("prove"); }, 1000000));
    const auto text = files::read_text(path);
    REQUIRE(text);
    const std::string others = *text + "\n";
    REQUIRE(files::write_atomically(path, others));
    hands.click("drawer:wrong");
    hands.click("drawer:complaint");
    hands.frames(3);
    hands.click("keep");
    hands.frames(3);
    CHECK(hands.says("was changed meanwhile"));
    CHECK(files::read_text(path) == others);
}

TEST_CASE("What was typed of a job is there again after another was looked at") {
    const OwnWorkshop workshop;
    const std::string path = take_job_along("horn-silent.scenario.xml");
    Headless hands;
    hands.desk().turn_to("author");
    hands.desk().open(path);
    hands.frames(3);
    hands.click("drawer:wrong");
    hands.click("drawer:complaint");
    hands.click("drawer:card");
    hands.frames(3);
    hands.click("level:5");
    hands.desk().open("horn.circuit.xml");
    hands.frames(3);
    CHECK(author(hands).job().level != 5);
    hands.desk().open(path);
    hands.frames(3);
    CHECK(author(hands).job().level == 5);
}

TEST_CASE("Of a circuit without operating states no job can be made, and that is said") {
    const OwnWorkshop workshop;
    std::string text = files::read_text("horn.circuit.xml").value();
    const std::string_view end = "</operating-states>";
    const std::size_t from = text.find("<operating-states>");
    const std::size_t to = text.find(end);
    REQUIRE(to != std::string::npos);
    text.erase(from, to + end.size() - from);
    REQUIRE(files::write_atomically("bare.circuit.xml", text));
    Headless hands;
    hands.desk().open("bare.circuit.xml");
    hands.frames(3);
    CHECK(hands.desk().mode().drawn() != nullptr);
    hands.desk().turn_to("author");
    hands.frames(3);
    CHECK(hands.says("this circuit has none"));
}

TEST_CASE("Turning to Author shows nobody what is wrong in the job he is at") {
    const OwnWorkshop workshop;
    const std::string path = take_job_along("horn-silent.scenario.xml");
    const auto read = practice::read_scenario(path, files::file_texts());
    REQUIRE(read);
    Headless hands;
    hands.desk().open(path);
    CHECK(hands.desk().mode().id() == "practise");
    hands.frames(3);
    hands.desk().turn_to("author");
    hands.frames(3);
    CHECK_FALSE(hands.says(read->scenario.faults.front().text));
    CHECK(author(hands).job().faults.empty());
}

}  // namespace halfsplit
