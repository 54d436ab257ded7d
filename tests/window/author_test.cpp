#include <catch2/catch.hpp>
#include <filesystem>

#include "engine/practice/scenario/read_scenario.h"
#include "tests/support/files.h"
#include "tests/window/headless.h"
#include "ui/files/text_files.h"
#include "ui/window/hands/faults_of.h"

namespace halfsplit {

namespace {

namespace fs = std::filesystem;
using test::Headless;

/// An empty working folder with the horns' circuit.
class OwnWorkshop {
  public:
    OwnWorkshop() : before_(fs::current_path()), own_(fs::temp_directory_path() / "halfsplit-author-test") {
        fs::remove_all(own_);
        fs::create_directories(own_);
        fs::copy_file(test::project_file("circuits/horn.circuit.xml"), own_ / "horn.circuit.xml");
        fs::current_path(own_);
    }
    OwnWorkshop(const OwnWorkshop&) = delete;
    OwnWorkshop& operator=(const OwnWorkshop&) = delete;
    ~OwnWorkshop() {
        fs::current_path(before_);
        fs::remove_all(own_);
    }

  private:
    fs::path before_;
    fs::path own_;
};

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
    REQUIRE(hands.frames_until([&] { return hands.is_there("complaint"); }, 100000));
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
    hands.wheel("proved", -20);
    CHECK(hands.says("is there already"));
}

}  // namespace halfsplit
