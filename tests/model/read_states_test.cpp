#include <catch2/catch.hpp>

#include "tests/support/errors.h"

using Catch::Contains;
using namespace halfsplit::model;
using namespace halfsplit::test;

namespace {

const std::string kSwitch = R"(<switch id="S4"><pin id="1"/><pin id="2"/><pin id="3"/><position id="auto"/>
<position id="out" title="Step out" momentary="yes"><contact from="1" to="2"/></position>
<position id="in"><contact from="1" to="3"/></position></switch><relay id="K1"/><splice id="J1"/>)";
const std::string kWorld =
    R"(<quantities><quantity id="speed" title="Road speed" unit="km/h" min="0" max="130" value="0"/></quantities>)";

std::string state_error(const std::string& states) {
    return error_at_mark(circuit_text(kSwitch, "", states, kWorld));
}

}  // namespace

TEST_CASE("A switch has the positions its author gives it") {
    const auto circuit = read_text(circuit_text(kSwitch));
    REQUIRE(circuit);
    const Part& part = *circuit->find_part("S4");
    REQUIRE(part.positions.size() == 3);
    CHECK(part.positions[0].contacts.empty());
    CHECK(part.positions[1].title == "Step out");
    CHECK(part.positions[1].momentary);
    CHECK(part.positions[2].contacts.at(0).from == 0);
    CHECK(part.positions[2].contacts.at(0).to == 2);
}

TEST_CASE("Contacts join two pins the switch has") {
    const auto with = [](const std::string& contact) {
        return R"(<switch id="S1"><pin id="1"/><pin id="2"/><position id="on">)" + contact +
               "</position></switch>";
    };
    CHECK_THAT(part_error(with(R"(<contact from="1" «to»="4"/>)")),
               Contains("no pin 4 here; 1 or 2 is expected"));
    CHECK_THAT(part_error(with(R"(<contact from="1" «to»="1"/>)")), Contains("to itself"));
    CHECK_THAT(part_error(with(R"(«<»contact from="1"/>)")), Contains("<contact> has no to"));
    CHECK_THAT(part_error(R"(«<»switch id="S1"><pin id="1"/></switch>)"), Contains("no positions"));
    CHECK_THAT(part_error(R"(<switch id="S1"><pin id="1"/><position id="a"/>«<»position id="a"/></switch>)"),
               Contains("position a is given twice"));
}

TEST_CASE("A state sets positions and quantities and lets time pass") {
    const auto circuit = read_text(circuit_text(
        kSwitch, "",
        R"(<state id="driving" title="Driving"><set what="S4" to="in"/><set what="speed" to="50"/>
        <settle seconds="5"/></state>)",
        kWorld));
    REQUIRE(circuit);
    const OperatingState& state = *circuit->find_state("driving");
    REQUIRE(state.steps.size() == 3);
    CHECK(std::get<SetStep>(state.steps[0]).to == "in");
    CHECK(std::get<SetStep>(state.steps[1]).what == "speed");
    CHECK(std::get<SettleStep>(state.steps[2]).seconds == 5);
}

TEST_CASE("A set names what can be set and to what") {
    const auto set = [](const std::string& attributes) {
        return "<state id=\"a\"><set " + attributes + "/></state>";
    };
    CHECK_THAT(state_error(set(R"(what="S4" «to»="outt")")),
               Contains("auto, out or in is expected (did you mean out?)"));
    CHECK_THAT(state_error(set(R"(«what»="S5" to="out")")), Contains("no S5 to set (did you mean S4?)"));
    CHECK_THAT(state_error(set(R"(what="speed" «to»="200")")), Contains("from 0 to 130 km/h"));
    CHECK_THAT(state_error(set(R"(what="speed" «to»="fast")")), Contains("is not a number"));
    CHECK_THAT(state_error(set(R"(«what»="K1" to="energised")")), Contains("changes by itself"));
    CHECK_THAT(state_error(set(R"(«what»="J1" to="open")")), Contains("cannot be set"));
    CHECK_THAT(state_error(R"(<state id="a"><settle «seconds»="-1"/></state>)"), Contains("out of range"));
    CHECK_THAT(state_error(R"(<state id="a"/><state «id»="a"/>)"), Contains("given twice"));
    CHECK_THAT(state_error(R"(<state id="a">«<»sett what="S4" to="in"/></state>)"),
               Contains("did you mean set?"));
}

TEST_CASE("A quantity's range is a range and its value lies in it") {
    const auto error = [](const std::string& attributes) {
        return error_at_mark(
            circuit_text("", "", "", "<quantities><quantity " + attributes + "/></quantities>\n"));
    };
    CHECK_THAT(error(R"(id="a" unit="V" min="5" «max»="5" value="5")"), Contains("above min (5)"));
    CHECK_THAT(error(R"(id="a" unit="V" min="0" max="5" «value»="6")"), Contains("from 0 (min) to 5 (max)"));
    CHECK_THAT(error(R"(id="a" «unit»="" min="0" max="5" value="0")"), Contains("unit is empty"));
    CHECK_THAT(error_at_mark(circuit_text("\n«<»battery id=\"speed\"/>", "", "", kWorld)),
               Contains("given twice"));
}

TEST_CASE("The sections of a circuit stand in their order and once") {
    CHECK_THAT(error_at_mark(circuit_text("<battery id='G1'/>", "", "", "<places/>«<»quantities/>")),
               Contains("<quantities> is expected before <places>"));
    CHECK_THAT(error_at_mark(circuit_text("", "", "", "<places/>«<»places/>")), Contains("second time"));
    CHECK_THAT(error_at_mark(circuit_text("", "", "", "«<»place id='a'/>")),
               Contains("<place> is unknown in <circuit> (did you mean places?)"));
    CHECK_THAT(
        error_at_mark(
            "«<»circuit xmlns='urn:halfsplit:circuit' version='1' id='a' title='a'><parts/></circuit>"),
        Contains("<circuit> has no <about>"));
    CHECK_THAT(error_at_mark("«<»vehicle xmlns='urn:halfsplit:circuit'/>"),
               Contains("<circuit> is expected"));
}

TEST_CASE("The head of a circuit says which version, id and title") {
    const auto error = [](const std::string& attributes) {
        return error_at_mark("«<»circuit xmlns='urn:halfsplit:circuit' " + attributes +
                             "><about>A.</about><parts/></circuit>");
    };
    CHECK_THAT(error("id='a' title='a'"), Contains("has no version; 1 is expected"));
    CHECK_THAT(error("version='1' title='a'"), Contains("has no id"));
    CHECK_THAT(error("version='1' id='a'"), Contains("has no title"));
    CHECK_THAT(error_at_mark("<circuit xmlns='urn:halfsplit:circuit' «version»='2' id='a' title='a'>"
                             "<about>A.</about><parts/></circuit>"),
               Contains("'2' is unknown; 1 is expected"));
    const auto circuit = read_text(
        "\xEF\xBB\xBF<circuit xmlns='urn:halfsplit:circuit' version='1' id='a' title='B' "
        "nominal-v='24'>\r\n<about>\r\n\tLine <![CDATA[& more]]> <!-- not this -->\r\n"
        "</about><parts/></circuit>\r\n");
    REQUIRE(circuit);
    CHECK(circuit->id == "a");
    CHECK(circuit->title == "B");
    CHECK(circuit->nominal_v == 24);
    CHECK(circuit->about == "Line & more");
}

TEST_CASE("Every error of a circuit is reported at once") {
    const auto result =
        read_text(circuit_text(R"(<battery id="G1" colour="x"/><fuse id="F1"/><relay id="1"/>)",
                               R"(<wire id="W1" from="Q1.1" to="Q2.1" colour="XX"/>)",
                               R"(<state id="a"><set what="S9" to="b"/></state>)"));
    REQUIRE_FALSE(result);
    CHECK(result.error().size() == 9);
    CHECK(to_text(result.error().front()).substr(0, 26) == "a.circuit.xml:3:25: error:");
}
