#include <catch2/catch.hpp>

#include "engine/model/structure.h"
#include "tests/support/errors.h"

using Catch::Contains;
using namespace halfsplit::model;
using namespace halfsplit::test;

TEST_CASE("A part gets its kind's values where the author gives none") {
    const auto circuit = read_text(circuit_text(R"(<battery id="G1"/><lamp id="H1" rated-w="21"/>)"));
    REQUIRE(circuit);
    REQUIRE(circuit->parts.size() == 2);
    const Part& battery = *circuit->find_part("G1");
    CHECK(battery.kind == find_part_kind("battery"));
    CHECK(battery.title == std::string(battery.kind->title));
    CHECK(battery.numbers.size() == battery.kind->numbers.size());
    CHECK(battery.numbers.front() == battery.kind->numbers.front().fallback);
    CHECK(battery.plugged == battery.kind->plugged);
    CHECK(battery.contact_ohm == battery.kind->contact_ohm);
    CHECK(battery.pins.size() == 2);
    CHECK(battery.where.line == 3);
    CHECK(circuit->find_pin("G1.+")->pin == 0);
    CHECK(circuit->point_name(*circuit->find_pin("H1.2")) == "H1.2");
}

TEST_CASE("What the author gives counts instead") {
    const auto circuit = read_text(
        circuit_text(R"(<battery id="G1" title="Main battery" open-circuit-v="12.4" contact-ohm="0.1"
        tolerance-percent="3" plug="X9" at="2 5"/><fuse id="F1" rating-a="10" plug="none" size="mini"/>)"));
    REQUIRE(circuit);
    const Part& battery = *circuit->find_part("G1");
    CHECK(battery.title == "Main battery");
    CHECK(battery.numbers.front() == 12.4);
    CHECK(battery.contact_ohm == 0.1);
    for (const double tolerance : battery.tolerance_percent) CHECK(tolerance == 3.0);
    CHECK(battery.plug == "X9");
    REQUIRE(battery.at);
    CHECK(battery.at->column == 2);
    CHECK(battery.at->row == 5);
    CHECK_FALSE(circuit->find_part("F1")->plugged);
}

TEST_CASE("An unknown kind, attribute or child is refused with the nearest known name") {
    CHECK_THAT(part_error(R"(«<»fues id="F1" rating-a="10"/>)"),
               Contains("<fues> is no kind of part (did you mean fuse?)"));
    CHECK_THAT(part_error(R"(<fuse id="F1" rating-a="10" «titel»="x"/>)"), Contains("did you mean title?"));
    CHECK_THAT(part_error(R"(<fuse id="F1" «ratingA»="1" rating-a="10"/>)"),
               Contains("did you mean rating-a?"));
    CHECK_THAT(part_error(R"(<battery id="G1">«<»fault-rat kind="discharged" rate="2"/></battery>)"),
               Contains("did you mean fault-rate?"));
    CHECK_THAT(part_error(R"(<battery id="G1">«<»pin id="1"/></battery>)"),
               Contains("<pin> is unknown in <battery>"));
    CHECK_THAT(part_error(R"(<battery id="G1">«flat»</battery>)"), Contains("no text is expected"));
}

TEST_CASE("A number out of range, unreadable or missing is refused with what was expected") {
    CHECK_THAT(part_error(R"(<battery id="G1" «internal-ohm»="-1"/>)"),
               Contains("out of range") && Contains("ohm"));
    CHECK_THAT(part_error(R"(<fuse id="F1" «rating-a»="7,5"/>)"), Contains("a decimal point is expected"));
    CHECK_THAT(part_error(R"(<fuse id="F1" «rating-a»=""/>)"), Contains("a number is expected"));
    CHECK_THAT(part_error(R"(«<»fuse id="F1"/>)"), Contains("<fuse> has no rating-a; a number from"));
    CHECK_THAT(part_error(R"(«<»battery/>)"), Contains("<battery> has no id"));
}

TEST_CASE("A word is one of its choices") {
    CHECK_THAT(part_error(R"(<fuse id="F1" rating-a="10" «size»="minni"/>)"),
               Contains("mini") && Contains("did you mean mini?"));
}

TEST_CASE("Ids are XML names that nothing else has") {
    CHECK_THAT(part_error(R"(<battery «id»="1G"/>)"), Contains("no digit first"));
    CHECK_THAT(part_error(R"(<battery «id»="G 1"/>)"), Contains("is not a name"));
    CHECK_THAT(part_error(R"(<battery «id»="a:b"/>)"), Contains("is not a name"));
    CHECK_THAT(part_error(R"(<battery «id»="body"/>)"), Contains("vehicle body"));
    CHECK_THAT(part_error("<battery id=\"G1\"/>\n«<»battery id=\"G1\"/>"),
               Contains("the id G1 is given twice; it first stands at a.circuit.xml:3:8"));
    CHECK_THAT(part_error(R"(<battery id="G1"/><fuse id="F1" rating-a="1" «plug»="G1"/>)"),
               Contains("given twice"));
    CHECK(read_text(circuit_text(R"(<battery id="Batterie_Größe-1.b"/>)")));
}

TEST_CASE("An id that reads like a pin of another part is refused") {
    CHECK_THAT(part_error(R"(<fuse id="F1" rating-a="1"/>«<»splice id="F1.2"/>)"),
               Contains("also means pin 2 of F1"));
    CHECK(read_text(circuit_text(R"(<fuse id="F1" rating-a="1"/><splice id="F1.3"/>)")));
}

TEST_CASE("A grid place is two whole numbers") {
    for (const char* wrong : {"1", "1 ", " 1 2", "1,2", "1 2 3", "-1 2", "1.5 2", "", "1  2"})
        CHECK_FALSE(read_text(circuit_text("<battery id=\"G1\" at=\"" + std::string(wrong) + "\"/>")));
}

TEST_CASE("Places, quantities and parts that a part names must be there") {
    const std::string world =
        R"(<quantities><quantity id="engine-temp" unit="degC" min="0" max="150" value="20"/>
</quantities><places><place id="dash" access-min="2"/></places>)";
    const auto error = [&](const std::string& parts) {
        return error_at_mark(circuit_text(parts, "", "", world));
    };
    CHECK_THAT(error(R"(<battery id="G1" «place»="dahs"/>)"), Contains("did you mean dash?"));
    CHECK_THAT(error(R"(<ntc-thermistor id="R1" ohm-25="2500" «quantity»="engine-tmp"/>)"),
               Contains("did you mean engine-temp?"));
    CHECK_THAT(error(R"(<battery id="G1"/><mechanism id="MX" «motor»="G1" travel-s="2"/>)"),
               Contains("there is no motor G1"));
    const auto circuit = read_text(circuit_text(
        R"(<battery id="G1" place="dash"/><ntc-thermistor id="R1" ohm-25="2500" quantity="engine-temp"/>)",
        "", "", world));
    REQUIRE(circuit);
    CHECK(circuit->find_place("dash")->access_min == 2);
    CHECK(circuit->find_quantity("engine-temp")->max == 150);
}

TEST_CASE("Values that do not go together are refused") {
    CHECK_THAT(part_error(R"(<relay id="K1" pull-in-v="4" «drop-out-v»="5"/>)"),
               Contains("below pull-in-v 4"));
    CHECK_THAT(part_error(R"(<relay id="K1" «pull-in-v»="2"/>)"),
               Contains("drop-out-v 2.5 is expected to be below"));
    CHECK_THAT(part_error(R"(<motor id="M1" no-load-a="3" «load-a»="20" stall-a="10"/>)"),
               Contains("below stall-a 10"));
}

TEST_CASE("Fault rates name faults the part has") {
    const auto circuit =
        read_text(circuit_text(R"(<relay id="K1"><fault-rate kind="open" where="coil" rate="0.5"/>
        <fault-rate kind="backed-out" where="87a" rate="3"/><fault-rate kind="unplugged" rate="2"/></relay>)"));
    REQUIRE(circuit);
    REQUIRE(circuit->parts[0].fault_rates.size() == 3);
    CHECK(circuit->parts[0].fault_rates[1].where == "87a");
    CHECK(circuit->parts[0].fault_rates[1].rate == 3);
    CHECK_THAT(part_error(R"(<fuse id="F1" rating-a="5"><fault-rate «kind»="blowm" rate="1"/></fuse>)"),
               Contains("did you mean blown?"));
    CHECK_THAT(part_error(R"(<relay id="K1"><fault-rate kind="backed-out" «where»="88" rate="1"/></relay>)"),
               Contains("no fault backed-out at 88"));
    CHECK_THAT(part_error(R"(<relay id="K1"><fault-rate kind="unplugged" «rate»="-1"/></relay>)"),
               Contains("out of range"));
    CHECK_THAT(part_error(R"(<splice id="J1"><fault-rate «kind»="unplugged" rate="1"/></splice>)"),
               Contains("has no fault"));
}

TEST_CASE("A control unit's pins have kinds and settings") {
    const auto unit = [](const std::string& pins, const std::string& behaviour = "a.scxml") {
        return "<control-unit id=\"A1\" behaviour=\"" + behaviour + "\">" + pins + "</control-unit>";
    };
    const std::string supply = R"(<pin id="1" kind="supply"/><pin id="2" kind="ground"/>)";
    const auto circuit =
        read_text(circuit_text(unit(supply + R"(<pin id="3" kind="input" pull-up-ohm="4700"/>)")));
    REQUIRE(circuit);
    CHECK(circuit->parts[0].pins[2].kind == "input");
    CHECK(circuit->parts[0].pins[2].words.at("pull-up-ohm") == "4700");
    CHECK_THAT(part_error(unit(supply + R"(<pin id="3" «kind»="inputt"/>)")),
               Contains("did you mean input?"));
    CHECK_THAT(part_error(unit(supply + R"(«<»pin id="3"/>)")), Contains("<pin> has no kind"));
    CHECK_THAT(part_error(unit(supply + "\n" + R"(«<»pin id="2" kind="input"/>)")),
               Contains("pin 2 is given twice"));
    CHECK_THAT(part_error(unit(supply + R"(<pin «id»="3.1" kind="input"/>)")), Contains("is no pin"));
    for (const char* wrong : {"a.xml", "../a.scxml", "b/a.scxml", "b\\a.scxml", "c:a.scxml", ".scxml", ""})
        CHECK_FALSE(read_text(circuit_text(unit(supply, wrong))));
}

TEST_CASE("A coupling has two halves of each contact") {
    const auto circuit = read_text(circuit_text(R"(<coupling id="X20" pins="3"/>)"));
    REQUIRE(circuit);
    REQUIRE(circuit->parts[0].pins.size() == 6);
    CHECK(circuit->parts[0].pins[4].id == "3a");
    CHECK(circuit->find_pin("X20.3b")->pin == 5);
    CHECK_FALSE(circuit->find_pin("X20.4a"));
    CHECK_THAT(part_error(R"(<coupling id="X20" «pins»="0"/>)"), Contains("out of range"));
    CHECK_THAT(part_error(R"(<coupling id="X20" «pins»="2.5"/>)"), Contains("whole number"));
    CHECK_THAT(part_error(R"(«<»coupling id="X20"/>)"), Contains("has no pins"));
}

TEST_CASE("A part has no more pins, contacts and rates than the reader can compare with each other") {
    const auto message = [](const std::string& children) {
        const auto result = read_text(circuit_text("<switch id='S1'>" + children + "</switch>"));
        return result ? std::string("read") : result.error().front().message;
    };
    const std::string on = "<pin id='1'/><pin id='2'/><position id='on'>";
    std::string contacts;
    for (int i = 0; i < kMaxSwitchContacts; ++i) contacts += "<contact from='1' to='2'/>";
    CHECK(message(on + contacts + "</position>") == "read");
    CHECK_THAT(message(on + contacts + "<contact from='1' to='2'/></position>"),
               Contains("more than 1000 contacts"));
    std::string pins;
    for (int i = 0; i < kMaxPartChildren; ++i) pins += "<pin id='" + std::to_string(i) + "'/>";
    CHECK_THAT(message(pins + "<position id='on'/>"),
               Contains("more than 1000 pins, positions and fault rates"));
}
