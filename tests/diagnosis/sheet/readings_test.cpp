#include <catch2/catch.hpp>

#include "engine/diagnosis/sheet/measured.h"
#include "engine/diagnosis/sheet/read_readings.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using namespace halfsplit::diagnosis;

namespace {

const model::Circuit& horn() {
    static const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    return circuit;
}

std::vector<FilledRow> read(std::string_view text) {
    auto rows = read_readings(horn(), text, "a.csv");
    if (!rows) FAIL(to_text(rows.error().front()));
    return std::move(*rows);
}

/// All problems, a line each.
std::string problems_of(std::string_view text) {
    const auto rows = read_readings(horn(), text, "a.csv");
    if (rows) return "";
    std::string all;
    for (const Diagnostic& each : rows.error()) all += to_text(each) + "\n";
    return all;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("A filled row says what was found where and in which state") {
    const auto rows = read(
        "state,at,against,instrument,expected,low,high,unit,measured\n"
        "sounding,P3.1,body,voltmeter,12.15,11.93,12.38,V,11.9\n"
        "sounding,F7,,fuse-millivolts,0.03,0.02,0.04,V,35 mV\n"
        "sounding,K2.30,K2.87,voltmeter,0.07,0.05,0.09,V,0.068\n"
        "ready,P3,,look-and-listen,silent,,,,silent\n"
        "ready,W203,,clamp,,,,A,0\n"
        "ready,P3.1,body,voltmeter,0,,,V,\n");
    REQUIRE(rows.size() == 5);
    CHECK(horn().states[static_cast<std::size_t>(rows[0].state)].id == "sounding");
    CHECK(rows[0].value == Approx(11.9));
    CHECK(rows[0].line == 2);
    CHECK(rows[0].finding.kind == Finding::Kind::voltage);
    CHECK(rows[0].finding.at == "P3.1");
    CHECK(rows[0].finding.against == "body");
    CHECK(horn().places[static_cast<std::size_t>(rows[0].finding.place)].id == "front-panel");
    CHECK(rows[1].value == Approx(0.035));
    CHECK(rows[1].finding.at == "F7.1@part");
    CHECK(rows[1].finding.against == "F7.2@part");
    CHECK(rows[2].finding.against == "K2.87");
    CHECK(rows[3].finding.kind == Finding::Kind::sign);
    CHECK(rows[3].value == static_cast<double>(Sign::none));
    CHECK(rows[4].finding.kind == Finding::Kind::current);
}

TEST_CASE("Three columns are enough, in any order and any capitals") {
    const auto rows = read("Measured,AT,State\n12.3,G1.+,ready\nsounds,P3,sounding\n");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].instrument == "voltmeter");
    CHECK(rows[0].finding.against == "body");
    CHECK(rows[1].finding.kind == Finding::Kind::sign);
    CHECK(rows[1].value == static_cast<double>(Sign::works));
}

TEST_CASE("Numbers are read as people and spreadsheets write them") {
    for (const auto& [text, expected] :
         {std::pair("12.3", 12.3), std::pair("12,3", 12.3), std::pair("12.3 V", 12.3),
          std::pair("12,3V", 12.3), std::pair("+12.3", 12.3), std::pair("-0.02", -0.02),
          std::pair("\xE2\x88\x92"
                    "0,02",
                    -0.02),
          std::pair("340 mV", 0.34), std::pair("340mV", 0.34), std::pair("0", 0.0),
          std::pair(" 5 v ", 5.0)}) {
        const auto value = read_measured(Measure::voltage, text, "V");
        INFO(text);
        REQUIRE(value);
        CHECK(*value == Approx(expected));
    }
    CHECK(read_measured(Measure::voltage, "340", "mV").value() == Approx(0.34));
    CHECK(read_measured(Measure::voltage, "340", "").value() == Approx(340));
    CHECK(read_measured(Measure::current, "1,5 A", "").value() == Approx(1.5));
    CHECK(read_measured(Measure::current, "20 mA", "A").value() == Approx(0.02));
}

TEST_CASE("What is no number, or has another thing's unit, is refused") {
    for (const char* text : {"twelve", "12.3.4", "1,2,3", "12 3", "V", "12 A", "12 ohm", "~12", "12?",
                             "1e999", "nan", "inf", "+-3", "--3", "12.3 VV", ",", "."}) {
        INFO(text);
        CHECK_FALSE(read_measured(Measure::voltage, text, "V"));
    }
    CHECK_FALSE(read_measured(Measure::current, "3 V", "A"));
    CHECK_FALSE(read_measured(Measure::voltage, "3", "furlongs"));
}

TEST_CASE("Dashes and blanks say that nothing was measured") {
    for (const char* text : {"", " ", "-", "\xE2\x80\x93", "\xE2\x80\x94"}) CHECK(is_left_out(text));
    for (const char* text : {"0", "-1", "no"}) CHECK_FALSE(is_left_out(text));
    CHECK(read("state,at,measured\nready,G1.+,-\nready,G1.+\n,,\nnonsense,nowhere,\n").empty());
}

TEST_CASE("The words a sheet prints are read back, and those people use") {
    for (const Shows shows : {Shows::filament, Shows::string, Shows::rotor, Shows::sound, Shows::heat,
                              Shows::plunger, Shows::fuse, Shows::lock, Shows::travel})
        for (const Sign sign : {Sign::none, Sign::weak, Sign::works, Sign::blown}) {
            const std::string_view word = sign_word(shows, sign);
            if (!word.empty()) CHECK(read_sign(shows, word) == sign);
        }
    CHECK(read_sign(Shows::filament, "YES") == Sign::works);
    CHECK(read_sign(Shows::rotor, "no") == Sign::none);
    CHECK(read_sign(Shows::sound, "Weak") == Sign::weak);
    CHECK(read_sign(Shows::fuse, "ok") == Sign::none);
    CHECK(read_sign(Shows::heat, "ok") == Sign::works);
    CHECK(read_sign(Shows::lock, "Locked") == Sign::works);
    CHECK(read_sign(Shows::travel, "100%") == Sign::works);
    CHECK_FALSE(read_sign(Shows::fuse, "yes"));
    CHECK_FALSE(read_sign(Shows::lock, "yes"));
    CHECK_FALSE(read_sign(Shows::filament, "purple"));
    CHECK_FALSE(read_sign(Shows::filament, "runs"));
    CHECK_FALSE(read_sign(Shows::filament, ""));
}

TEST_CASE("A spreadsheet's version is read: semicolons, decimal commas, byte-order mark, its line ends") {
    const auto rows = read(
        "\xEF\xBB\xBFstate;at;against;instrument;unit;measured\r\n"
        "sounding;P3.1;body;voltmeter;V;11,93\r\n"
        "\"sounding\";F7;;fuse-millivolts;V;\"0,031\"\r\n"
        "ready;P3;;look-and-listen;;Silent\r\n"
        ";;;;;\r\n");
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].value == Approx(11.93));
    CHECK(rows[1].value == Approx(0.031));
    CHECK(rows[2].value == static_cast<double>(Sign::none));
}

TEST_CASE("Wrong cells are refused with line and column, all of them, the near name suggested") {
    const std::string all = problems_of(
        "state,at,against,instrument,measured\n"
        "soundin,P3.1,body,voltmeter,12\n"
        "sounding,P3.3,body,voltmeter,12\n"
        "sounding,P3.1,bodi,voltmeter,12\n"
        "sounding,P3.1,P3.1,voltmeter,0\n"
        "sounding,P3.1,body,voltmetre,12\n"
        "sounding,P3.1,body,voltmeter,twelve\n"
        "sounding,P3.1,body,voltmeter,1193\n"
        "sounding,P3,,look-and-listen,purple\n"
        "sounding,K2,,look-and-listen,yes\n"
        "sounding,K2,,fuse-millivolts,0.03\n"
        "sounding,W2003,,clamp,3\n"
        "sounding,P3.1,body,ohmmeter,3\n");
    INFO(all);
    CHECK(contains(all, "a.csv:2:1: error: the circuit has no state 'soundin' (did you mean sounding?)"));
    CHECK(contains(all, "a.csv:3:10: error: the circuit has no point 'P3.3' (did you mean P3."));
    CHECK(contains(all, "a.csv:4:15: error: the circuit has no point 'bodi' (did you mean body?)"));
    CHECK(contains(all, "a.csv:5:15: error: both leads are on 'P3.1'"));
    CHECK(contains(all, "a.csv:6:20: error: 'voltmetre' is no instrument"));
    CHECK(contains(all, "did you mean voltmeter?"));
    CHECK(contains(all,
                   "a.csv:7:30: error: 'twelve' is no reading; a voltage such as 12.3 or 45 mV is expected"));
    CHECK(contains(all, "a.csv:8:30: error: '1193' is more than there can be; at most 60 V"));
    CHECK(contains(all,
                   "a.csv:9:30: error: 'purple' is not what P3 can be found to do; sounds, faint or silent"));
    CHECK(contains(all, "a.csv:10:10: error: 'K2' shows nothing one could see or hear"));
    CHECK(contains(all, "a.csv:11:10: error: 'K2' is no fuse"));
    CHECK(contains(all, "a.csv:12:10: error: no wire is called 'W2003' (did you mean W203?)"));
    CHECK(contains(all, "a.csv:13:20: error: 'ohmmeter' is no instrument whose readings count here"));
}

TEST_CASE("What the customer complained of is marked in a column of its own, and wrong marks are refused") {
    const auto rows = read(
        "state,at,measured,complaint\nsounding,P3,silent,yes\nsounding,P4,silent,X\n"
        "sounding,K2.87,12,no\nsounding,K2.30,12,-\nready,K2.30,12\n");
    REQUIRE(rows.size() == 5);
    for (std::size_t i = 0; i < rows.size(); ++i) CHECK(rows[i].is_complaint == (i < 2));
    CHECK(contains(problems_of("state,at,measured,complaint\nsounding,P3,silent,perhaps\n"),
                   "a.csv:2:20: error: 'perhaps' does not say whether it was complained of; yes or no"));
}

TEST_CASE("A header that lacks a column, or has one twice, and an empty file are refused") {
    CHECK(contains(problems_of(""), "a.csv:1:1: error: the file is empty"));
    CHECK(contains(problems_of("state,at,mesured\nready,G1.+,12\n"),
                   "a.csv:1:1: error: the header has no column 'measured' (did you mean mesured?)"));
    CHECK(contains(problems_of("state,at,measured,at\nready,G1.+,12,G1.-\n"),
                   "a.csv:1:19: error: a second column is called 'at'"));
    CHECK(contains(problems_of("state,at,measured\nready,\"G1.+,12\n"), "a.csv:2:7: error: the quotes"));
}

TEST_CASE("Of a thousand wrong rows a hundred are told") {
    std::string text = "state,at,measured\n";
    for (int i = 0; i < 1000; ++i) text += "ready,G1.+,nonsense\n";
    const auto rows = read_readings(horn(), text, "a.csv");
    REQUIRE_FALSE(rows);
    CHECK(rows.error().size() == 100);
}
