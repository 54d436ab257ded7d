#include <catch2/catch.hpp>

#include "engine/model/reading/colour.h"
#include "tests/support/errors.h"

using Catch::Contains;
using namespace halfsplit::model;
using namespace halfsplit::test;

namespace {

const std::string kParts =
    R"(<battery id="G1"/><fuse id="F7" rating-a="15"/><relay id="K2"/><coupling id="X20" pins="2"/><splice id="J14"/>
<ground-point id="E2"/>)";

std::string wire_error(const std::string& wires) {
    return error_at_mark(circuit_text(kParts, wires));
}

}  // namespace

TEST_CASE("A wire joins two points") {
    const auto circuit = read_text(circuit_text(
        kParts, R"(<wire id="W31" from="F7.2" to="K2.30" area-mm2="2.5" length-m="1.8" colour="RD"/>
        <wire id="W32" from="J14" to="X20.2a" area-mm2="1" length-m="0.5" colour="gnYE" tolerance-percent="5"/>
        <wire id="W33" from="E2" to="G1.-" ohm="0.002" colour="BK"/>)"));
    REQUIRE(circuit);
    REQUIRE(circuit->wires.size() == 3);
    const Wire& wire = *circuit->find_wire("W31");
    CHECK(circuit->point_name(wire.from) == "F7.2");
    CHECK(circuit->point_name(wire.to) == "K2.30");
    CHECK(wire.area_mm2 == 2.5);
    CHECK(wire.length_m == 1.8);
    CHECK_FALSE(wire.ohm);
    CHECK(circuit->point_name(circuit->wires[1].from) == "J14");
    CHECK(circuit->wires[1].base_colour == "GN");
    CHECK(circuit->wires[1].tracer_colour == "YE");
    CHECK(circuit->wires[1].tolerance_percent == 5);
    CHECK(circuit->wires[2].ohm == 0.002);
}

TEST_CASE("A wire to nowhere is refused with what is near") {
    CHECK_THAT(wire_error(R"(<wire id="W1" from="G1.+" «to»="F8.1" area-mm2="1" length-m="1" colour="RD"/>)"),
               Contains("F8.1 is no point; there is no part F8") && Contains("did you mean F7?"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" «from»="K2.31" to="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
        Contains("K2 has 30, 85, 86, 87 or 87a"));
    CHECK_THAT(wire_error(R"(<wire id="W1" «from»="K2" to="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
               Contains("a pin is expected after it"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" «from»="J14.1" to="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
        Contains("J14 alone is expected"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" «from»="X20.3a" to="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
        Contains("X20 has 1a, 1b, 2a or 2b"));
    CHECK_THAT(wire_error(R"(<wire id="W1" «from»="body" to="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
               Contains("no part body"));
    CHECK_THAT(wire_error(R"(<wire id="W1" from="G1.+" «to»="G1.+" area-mm2="1" length-m="1" colour="RD"/>)"),
               Contains("back to the same point"));
}

TEST_CASE("A wire needs area and length unless its resistance is given") {
    CHECK_THAT(wire_error(R"(«<»wire id="W1" from="G1.+" to="F7.1" area-mm2="1" colour="RD"/>)"),
               Contains("<wire> has no length-m; a number from"));
    CHECK_THAT(wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" area-mm2="1" «length-m»="" colour="RD"/>)"),
               Contains("length-m: the value is empty"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" area-mm2="1" «length-m»="1,5" colour="RD"/>)"),
        Contains("a decimal point is expected"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" area-mm2="1" «length-m»="1.8m" colour="RD"/>)"),
        Contains("unit is in the attribute's name"));
    CHECK_THAT(
        wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" «area-mm2»="-1" length-m="1" colour="RD"/>)"),
        Contains("out of range"));
}

TEST_CASE("Wires have ids of their own") {
    CHECK_THAT(wire_error("<wire id=\"W1\" from=\"G1.+\" to=\"F7.1\" ohm=\"1\" colour=\"RD\"/>\n"
                          "«<»wire id=\"W1\" from=\"G1.-\" to=\"E2\" ohm=\"1\" colour=\"BK\"/>"),
               Contains("W1 is given twice; it first stands at a.circuit.xml:5:10"));
    CHECK_THAT(wire_error(R"(«<»wire id="F7" from="G1.+" to="F7.1" ohm="1" colour="RD"/>)"),
               Contains("given twice"));
    CHECK_THAT(wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" ohm="1" colour="RD"/>«<»wier/>)"),
               Contains("did you mean wire?"));
}

TEST_CASE("Nothing more is said about wires to a part that is wrong itself") {
    CHECK_THAT(error_at_mark(circuit_text(R"(<battery id="G1"/>«<»fues id="F1" rating-a="10"/>)",
                                          R"(<wire id="W1" from="G1.+" to="F1.1" ohm="1" colour="RD"/>)")),
               Contains("<fues> is no kind of part"));
}

TEST_CASE("Fault rates of a wire are its own") {
    const auto with = [](const std::string& rate) {
        return R"(<wire id="W1" from="G1.+" to="F7.1" ohm="1" colour="RD">)" + rate + "</wire>";
    };
    const auto circuit = read_text(circuit_text(kParts, with(R"(<fault-rate kind="open" rate="4"/>)")));
    REQUIRE(circuit);
    CHECK(circuit->wires[0].fault_rates.at(0).rate == 4);
    CHECK_THAT(wire_error(with(R"(<fault-rate «kind»="opne" rate="4"/>)")), Contains("did you mean open?"));
    CHECK_THAT(wire_error(with(R"(<fault-rate kind="open" «where»="1" rate="4"/>)")), Contains("left out"));
}

// Codes: IEC 60757:2021 (the table of GOST 28763-90, which equals IEC 757:1983). Base before tracer: common
// practice of harness drawings.
TEST_CASE("Colours are letters of IEC 60757, base then tracer") {
    using halfsplit::model::reading::read_colour;
    for (const char* code :
         {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"}) {
        REQUIRE(read_colour(code));
        CHECK(read_colour(code)->base == code);
        CHECK(read_colour(code)->tracer.empty());
    }
    CHECK(read_colour("GNYE")->base == "GN");
    CHECK(read_colour("GNYE")->tracer == "YE");
    CHECK(read_colour("bk")->base == "BK");
    for (const char* wrong : {"", "R", "red", "BL", "RD/WH", "RD-WH", "RDWHBK", "RDR", "RD ", "ЧР"})
        CHECK_FALSE(read_colour(wrong));
    CHECK_THAT(read_colour("RDRD").error(), Contains("the colour of its base"));
    CHECK_THAT(wire_error(R"(<wire id="W1" from="G1.+" to="F7.1" ohm="1" «colour»="RW"/>)"),
               Contains("'RW' is no colour"));
}
