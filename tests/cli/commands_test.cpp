#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include "tests/cli/program.h"
#include "tests/support/circuit_text.h"
#include "tests/support/sanitized.h"
#include "tests/support/temporary_folder.h"

using halfsplit::test::contains;
using halfsplit::test::kHorn;
using halfsplit::test::run_command;
using halfsplit::test::run_program;

TEST_CASE("Every command explains itself") {
    for (const char* command :
         {"", "check", "volts", "course", "measure", "trace", "diagram", "faults", "parts", "plan", "sheet",
          "suspects", "dictionary", "practise", "draft", "debrief", "results"}) {
        const auto ran = run_program(std::string(command) + " --help");
        INFO(command);
        CHECK(ran.status == 0);
        CHECK(contains(ran.out, "--help"));
        CHECK(ran.err.empty());
    }
    CHECK(run_program("--version").status == 0);
}

TEST_CASE("A wrong command line is refused with status 2 and says what was wrong") {
    const std::vector<std::pair<std::string, std::string>> wrong{
        {"", "subcommand"},
        {"volt " + kHorn, "subcommand"},
        {"volts", "circuit"},
        {"volts " + kHorn + " --state soundin", "did you mean sounding"},
        {"volts " + kHorn + " --fault open:W999", "no part, plug contact or wire is called 'W999'"},
        {"volts " + kHorn + " --set S1", "WHAT=VALUE"},
        {"volts " + kHorn + " --set S1=Run", "has no position 'Run'"},
        {"volts " + kHorn + " --unplug X99", "no part or plug is called 'X99'"},
        {"volts " + kHorn + " --pull P3", "only fuses and relays"},
        {"volts " + kHorn + " --format xml", "format"},
        {"measure " + kHorn + " --with voltmetre --at G1.+", "did you mean voltmeter"},
        {"measure " + kHorn + " --with voltmeter --at G1.x", "no point is called 'G1.x'"},
        {"measure " + kHorn + " --with voltmeter", "--at"},
        {"parts fues", "did you mean fuse"},
    };
    for (const auto& [arguments, expected] : wrong) {
        const auto ran = run_program(arguments);
        INFO(arguments << "\n" << ran.err);
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, expected));
        CHECK(ran.out.empty());
    }
}

TEST_CASE("A file that is not there, no file or no circuit is refused with status 1") {
    CHECK(run_program("check circuits/none.circuit.xml").status == 1);
    CHECK(contains(run_program("check circuits/none.circuit.xml").err, "circuits/none.circuit.xml"));
    CHECK(run_program("check circuits").status == 1);
    CHECK(run_program("check README.md").status == 1);
    CHECK(run_program("check /dev/null").status == 1);
    CHECK(run_program("volts README.md").status == 1);
}

TEST_CASE("All circuits we ship check without an error") {
    // A whole van takes minutes under the sanitizers; other tests have it there.
    const std::string circuits =
        halfsplit::test::kSanitized ? "circuits/[!v]*.circuit.xml" : "circuits/*.circuit.xml";
    const auto ran = run_command("'" HALFSPLIT_PROGRAM "' check " + circuits + " circuits/*.scxml");
    INFO(ran.err);
    CHECK(ran.status == 0);
    CHECK(std::count(ran.out.begin(), ran.out.end(), '\n') >= 8);
}

TEST_CASE("Text, JSON and CSV tell the same voltages") {
    const auto json = run_program("volts " + kHorn + " --state sounding --format json");
    REQUIRE(json.status == 0);
    for (const char* key : {"\"circuit\": \"horn\"", "\"state\": \"sounding\"", "\"points\"", "\"currents\"",
                            "\"floating\"", "\"conditions\""})
        CHECK(contains(json.out, key));
    const auto text = run_program("volts " + kHorn + " --state sounding");
    REQUIRE(text.status == 0);
    CHECK(contains(text.out, "G1.+"));
    CHECK_FALSE(contains(text.out, "nan"));
    const auto csv = run_program("volts " + kHorn + " --state sounding --format csv");
    REQUIRE(csv.status == 0);
    CHECK(csv.out.starts_with("point,"));
}

TEST_CASE("The commands that README shows do what it says") {
    const std::string readme = halfsplit::test::file_text("README.md");
    // What they write down is no business of the project's folder.
    const halfsplit::test::TemporaryFolder folder("readme");
    for (const char* below : {"circuits", "scenarios"})
        std::filesystem::create_directory_symlink(std::string(HALFSPLIT_SOURCE_DIR) + "/" + below,
                                                  folder.file(below));
    int shown = 0;
    const std::string start = "`sh ui/run.sh ";
    for (std::size_t at = readme.find(start); at != std::string::npos; at = readme.find(start, at + 1)) {
        const std::size_t first = at + start.size();
        const std::string arguments = readme.substr(first, readme.find('`', first) - first);
        const auto ran = run_command("cd '" + folder.path() + "' && " HALFSPLIT_PROGRAM " " + arguments);
        INFO(arguments << "\n" << ran.err);
        CHECK(ran.status == 0);
        CHECK_FALSE(ran.out.empty());
        ++shown;
    }
    CHECK(shown >= 3);
}
