#include <catch2/catch.hpp>

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"

using halfsplit::test::contains;
using halfsplit::test::kHorn;
using halfsplit::test::run_program;

namespace {

/// A file with this text, gone at the end.
class Readings {
  public:
    explicit Readings(const std::string& text)
        : path_(std::filesystem::temp_directory_path() /
                ("halfsplit-readings-" + std::to_string(getpid()) + ".csv")) {
        std::ofstream(path_, std::ios::binary) << text;
    }
    Readings(const Readings&) = delete;
    Readings& operator=(const Readings&) = delete;
    ~Readings() { std::filesystem::remove(path_); }

    std::string arguments(const std::string& more = "") const {
        return "suspects " + kHorn + " --no-cache --readings " + path_.string() + more;
    }

  private:
    std::filesystem::path path_;
};

nlohmann::json advice(const Readings& readings, const std::string& more = "") {
    const auto ran = run_program(readings.arguments(" --format json" + more));
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    return nlohmann::json::parse(ran.out);
}

std::vector<std::string> faults_of(const nlohmann::json& advice) {
    std::vector<std::string> faults;
    for (const auto& suspect : advice["suspects"]) faults.push_back(suspect["fault"]);
    return faults;
}

}  // namespace

// By hand: the relay pulls in (its contact side is live) and both horns get 12 V at their plugs, yet one is
// silent: nothing but that horn, its ground and what is between is left.
TEST_CASE("A horn that has its voltage and is silent is itself the suspect") {
    const Readings readings(
        "state,at,measured\nsounding,P3,silent\nsounding,P4,sounds\nsounding,P3.1,12.1\nsounding,P3.2,0."
        "02\n");
    const auto told = advice(readings);
    REQUIRE_FALSE(told["suspects"].empty());
    for (const auto& suspect : told["suspects"]) {
        INFO(suspect.dump());
        CHECK((contains(suspect["fault"], "P3") || suspect["probability"] < 0.05));
    }
    CHECK(told["suspects"][0]["explains"] == 4);
    CHECK(told["suspects"][0]["probability"] <= 1);
}

TEST_CASE("What a spreadsheet makes of the file says the same") {
    const std::string rows =
        "sounding,P3,silent\nsounding,P4,silent\nsounding,K2.87,0.01\nsounding,K2.30,12.2\n";
    const auto plain = advice(Readings("state,at,measured\n" + rows));
    std::string spreadsheet = "\xEF\xBB\xBFstate;at;measured\r\n";
    for (const char each : rows)
        spreadsheet += each == ',' ? ";" : each == '.' ? "." : each == '\n' ? "\r\n" : std::string(1, each);
    const auto comma = [](std::string text, const std::string& from, const std::string& to) {
        return text.replace(text.find(from), from.size(), to);
    };
    spreadsheet = comma(comma(spreadsheet, "0.01", "0,01"), "12.2", "12,2");
    CHECK(advice(Readings(spreadsheet)) == plain);
}

TEST_CASE("A wrong reading among good ones is told as what contradicts, and the rest decides") {
    const auto told = advice(Readings(
        "state,at,measured\nsounding,P3,silent\nsounding,P4,silent\nsounding,F7,blown\nsounding,K2.30,0\n"
        "ready,K2.30,0\nsounding,P3.2,9.7\n"));
    CHECK_FALSE(told["suspects"][0]["contradicted_by"].empty());
    CHECK(told["suspects"][0]["contradicted_by"][0]["at"] == "P3.2");
    CHECK(told["suspects"][0]["contradicted_by"][0]["read"] == 9.7);
}

TEST_CASE("A fault that was looked for in vain is out, and a complaint excludes that nothing is wrong") {
    const Readings readings("state,at,measured\nsounding,P3,silent\nsounding,P4,sounds\n");
    const auto before = faults_of(advice(readings));
    REQUIRE_FALSE(before.empty());
    const auto after = faults_of(advice(readings, " --cleared " + before.front()));
    CHECK(std::ranges::find(after, before.front()) == after.end());
    const Readings sound("state,at,measured\nsounding,P3,sounds\nsounding,P4,sounds\n");
    const auto calm = faults_of(advice(sound, " --most 1000"));
    CHECK(std::ranges::find(calm, "none") != calm.end());
    const auto complaint = faults_of(advice(sound, " --most 1000 --complaint"));
    CHECK(std::ranges::find(complaint, "none") == complaint.end());
}

TEST_CASE("Suspects are told in words with the next test and what each outcome would mean") {
    const Readings readings("state,at,measured\nsounding,P3,silent\nsounding,P4,silent\n");
    const auto ran = run_program(readings.arguments());
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Horns: 2 readings, "));
    CHECK(contains(ran.out, "explains 2 of 2 readings"));
    CHECK(contains(ran.out, "Next ("));
    CHECK(contains(ran.out, " if it is "));
}

TEST_CASE("A file with nothing filled in yet is where a diagnosis begins") {
    const auto ran = run_program(Readings("state,at,measured\n").arguments());
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Horns: 0 readings, "));
    CHECK(contains(ran.out, "no fault at all"));
    CHECK_FALSE(contains(ran.out, "explains"));
    CHECK(contains(ran.out, "Next ("));
}

TEST_CASE("Where everything has been cleared that is said") {
    const auto faults = nlohmann::json::parse(run_program("faults " + kHorn + " --format json").out);
    std::string cleared;
    for (const auto& each : faults["faults"]) cleared += " --cleared " + each["fault"].get<std::string>();
    const Readings readings("state,at,measured\nsounding,P3,silent\n");
    const auto ran = run_program(readings.arguments(" --complaint" + cleared));
    CHECK(ran.status == 1);
    CHECK(contains(ran.err, "nothing is left to suspect"));
}

TEST_CASE("A reading between points nobody thought of counts too") {
    const auto told =
        advice(Readings("state,at,against,measured\nsounding,K2.30,E3,0\nsounding,P3,silent\n"));
    CHECK_FALSE(told["suspects"].empty());
}

TEST_CASE("Wrong readings, states and faults are refused with their place and what was meant") {
    const auto cell =
        run_program(Readings("state,at,measured\nsounding,P3,silent\nsounding,K2.87,twelve\n").arguments());
    CHECK(cell.status == 1);
    CHECK(contains(cell.err, ".csv:3:16: error: "));
    const Readings readings("state,at,measured\nsounding,P3,silent\n");
    const auto state = run_program(readings.arguments(" --state soundin"));
    CHECK(state.status == 2);
    CHECK(contains(state.err, "did you mean sounding"));
    const auto fault = run_program(readings.arguments(" --cleared blown:F8x"));
    CHECK(fault.status == 2);
    CHECK(contains(fault.err, "did you mean blown:F8"));
    const auto missing = run_program("suspects " + kHorn + " --readings none.csv");
    CHECK(missing.status == 1);
    CHECK(contains(missing.err, "none.csv"));
}

TEST_CASE("A dictionary is a table that plan reads, and the plan ends with every fault of it") {
    const std::string path =
        (std::filesystem::temp_directory_path() / ("halfsplit-table-" + std::to_string(getpid()) + ".csv"))
            .string();
    const auto ran = run_program("dictionary " + kHorn + " --no-cache --state sounding -o " + path);
    INFO(ran.err);
    CHECK(ran.status == 0);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, " tests that part them differently"));
    const auto plan = run_program("plan " + path + " --method one-step --format json");
    CHECK(plan.status == 0);
    const auto json = nlohmann::json::parse(plan.out);
    CHECK(json["expected_cost"] >= json["lower_bound"]);
    std::filesystem::remove(path);
}
