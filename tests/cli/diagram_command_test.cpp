#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/cli/program.h"

using halfsplit::test::contains;
using halfsplit::test::kHorn;
using halfsplit::test::run_program;

TEST_CASE("The diagram comes to standard output, or into the file asked for") {
    const auto shown = run_program("diagram " + kHorn);
    CHECK(shown.status == 0);
    CHECK(shown.err.empty());
    CHECK(contains(shown.out, "<svg "));
    CHECK(contains(shown.out, "data-id=\"K2\""));
    const std::string path = (std::filesystem::temp_directory_path() / "halfsplit-diagram-test.svg").string();
    const auto written = run_program("diagram " + kHorn + " -o " + path);
    CHECK(written.status == 0);
    CHECK(written.out.empty());
    std::ifstream file(path);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    CHECK(text == shown.out);
    std::remove(path.c_str());
}

TEST_CASE("A diagram of some parts leaves the others out") {
    const auto ran = run_program("diagram " + kHorn + " --only S5");
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "data-id=\"S5\""));
    CHECK(contains(ran.out, "data-id=\"K2\""));
    CHECK_FALSE(contains(ran.out, "data-id=\"P3\""));
}

TEST_CASE("A part that is not there, a file with errors and a place that cannot be written are refused") {
    const auto missing = run_program("diagram " + kHorn + " --only P33");
    CHECK(missing.status == 2);
    CHECK(contains(missing.err, "no part 'P33'"));
    CHECK(contains(missing.err, "did you mean P3"));
    CHECK(missing.out.empty());
    const auto broken = run_program("diagram tests/data/broken/comma-number.circuit.xml");
    CHECK(broken.status == 1);
    CHECK(broken.out.empty());
    const auto nowhere = run_program("diagram " + kHorn + " -o /nowhere/a.svg");
    CHECK(nowhere.status == 2);
    CHECK(contains(nowhere.err, "cannot write"));
}

TEST_CASE("A page is drawn by its number or its title, and facts have a line for each") {
    const std::string van = "circuits/van-body.circuit.xml";
    const auto facts = run_program("diagram " + van + " --facts");
    CHECK(facts.status == 0);
    CHECK(contains(facts.out, "crossings"));
    CHECK(contains(facts.out, "Feeds and grounds"));
    CHECK(contains(facts.out, "Horn"));
    const auto by_title = run_program("diagram " + van + " --page Horn");
    CHECK(by_title.status == 0);
    CHECK(contains(by_title.out, "data-id=\"horn-P3\""));
    CHECK_FALSE(contains(by_title.out, "data-id=\"M7\""));
    const auto missing = run_program("diagram " + van + " --page Hron");
    CHECK(missing.status == 2);
    CHECK(contains(missing.err, "no page 'Hron'"));
    CHECK(contains(missing.err, "did you mean Horn"));
    CHECK(run_program("diagram " + van + " --page 99").status == 2);
    CHECK(run_program("diagram " + van + " --page 2 --map").status == 2);
}

TEST_CASE("The map of a circuit has its fuses and ground points") {
    const auto map = run_program("diagram " + kHorn + " --map");
    CHECK(map.status == 0);
    CHECK(contains(map.out, "data-id=\"F7\""));
    CHECK(contains(map.out, "data-id=\"E3\""));
    CHECK_FALSE(contains(map.out, "data-id=\"P3\""));
}
