#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/cli/program.h"

using halfsplit::test::contains;
using halfsplit::test::kHorn;
using halfsplit::test::run_program;

namespace {

/// A file that is gone at the end.
struct Written {
    std::filesystem::path path;

    explicit Written(const char* name) : path(std::filesystem::temp_directory_path() / name) {}
    Written(const Written&) = delete;
    Written& operator=(const Written&) = delete;
    ~Written() { std::filesystem::remove(path); }

    std::string text() const {
        std::ifstream file(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    }
};

}  // namespace

TEST_CASE("A sheet is written as its file's name says, and to standard output as asked") {
    const Written html("halfsplit-sheet-test.html");
    const auto ran = run_program("sheet " + kHorn + " -o " + html.path.string());
    CHECK(ran.status == 0);
    CHECK(ran.out.empty());
    CHECK(html.text().starts_with("<!DOCTYPE html>\n<html"));
    const Written csv("halfsplit-sheet-test.csv");
    CHECK(run_program("sheet " + kHorn + " -o " + csv.path.string()).status == 0);
    CHECK(csv.text().starts_with("state,"));
    CHECK(run_program("sheet " + kHorn + " --format csv").out == csv.text());
    CHECK(contains(run_program("sheet " + kHorn).out, "Horns: what should be found"));
    CHECK(contains(run_program("sheet " + kHorn + " --format json").out, "\"circuit\": \"horn\""));
}

TEST_CASE("A sheet is of the states and parts asked for, states in that order") {
    const auto ran = run_program("sheet " + kHorn + " --state sounding --state ready --only S5 --format csv");
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "\nsounding,"));
    CHECK(ran.out.find("\nsounding,") < ran.out.find("\nready,"));
    CHECK_FALSE(contains(ran.out, "key-off"));
    CHECK(contains(ran.out, ",S5.1,"));
    CHECK_FALSE(contains(ran.out, ",P3.1,"));
}

TEST_CASE("A sheet of what is not there is refused") {
    const auto state = run_program("sheet " + kHorn + " --state soundin");
    CHECK(state.status == 2);
    CHECK(contains(state.err, "did you mean sounding"));
    const auto part = run_program("sheet " + kHorn + " --only P33");
    CHECK(part.status == 2);
    CHECK(contains(part.err, "did you mean P3"));
    const auto name = run_program("sheet " + kHorn + " -o sheet.pdf");
    CHECK(name.status == 2);
    CHECK(contains(name.err, ".html, .csv"));
    const auto nowhere = run_program("sheet " + kHorn + " -o /nowhere/a.csv");
    CHECK(nowhere.status == 2);
    CHECK(contains(nowhere.err, "cannot write"));
    CHECK(run_program("sheet tests/data/broken/comma-number.circuit.xml").status == 1);
    for (const auto& each : {state, part, name, nowhere}) CHECK(each.out.empty());
}
