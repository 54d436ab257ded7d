#include <catch2/catch.hpp>

#include "engine/model/reading/include.h"
#include "engine/xml/limits.h"
#include "tests/support/errors.h"
#include "tests/support/sanitized.h"

using Catch::Contains;
using namespace halfsplit::model;
using namespace halfsplit::test;

namespace {

const std::string kHorn = circuit_text(
    R"(<battery id="G1"/><fuse id="F1" rating-a="10" place="box"/><motor id="M1"/><mechanism id="X1" motor="M1" travel-s="2"/>
<ground-point id="E1"/>)",
    R"(<wire id="W1" from="G1.+" to="F1.1" ohm="0.01" colour="RD"/><wire id="W2" from="F1.2" to="M1.1" ohm="0.01" colour="RD"/>
<wire id="W3" from="M1.2" to="E1" ohm="0.01" colour="BK"/>)",
    R"(<state id="blown"><set what="F1" to="blown"/><set what="speed" to="20"/></state>)",
    R"(<quantities><quantity id="speed" unit="km/h" min="0" max="130" value="0"/></quantities><places><place id="box"/></places>)");

const std::string kVehicleParts = R"(<battery id="G1"/><ground-point id="E9"/>)";

std::string vehicle(const std::string& includes, const std::string& parts = kVehicleParts,
                    const std::string& harness = "") {
    return circuit_text(parts, harness, "", includes);
}

/// The one error of a vehicle that may include parts/horn.circuit.xml.
std::string include_error(const std::string& snippet, Files files = {{"v/parts/horn.circuit.xml", kHorn}}) {
    const Marked marked = unmark(snippet);
    files["v/a.circuit.xml"] = marked.text;
    const auto result = read_circuit("v/a.circuit.xml", source_of(files));
    REQUIRE_FALSE(result);
    INFO(to_text(result.error().back()));
    CHECK(result.error().size() == 1);
    CHECK(result.error().front().where.file == "v/a.circuit.xml");
    CHECK(result.error().front().where.line == marked.line);
    CHECK(result.error().front().where.column == marked.column);
    return result.error().front().message;
}

}  // namespace

TEST_CASE("An included circuit joins with a prefix, shared parts stay one") {
    const std::string text = vehicle(R"(<include href="parts/horn.circuit.xml" prefix="horn-">
<same id="G1" as="G1"/><same id="E1" as="E9"/></include>)",
                                     kVehicleParts,
                                     R"(<wire id="W1" from="G1.-" to="E9" ohm="0.001" colour="BK"/>
<wire id="W9" from="horn-F1.2" to="E9" ohm="5" colour="BK"/>)");
    const auto circuit = read_circuit(
        "v/a.circuit.xml", source_of({{"v/a.circuit.xml", text}, {"v/parts/horn.circuit.xml", kHorn}}));
    REQUIRE(circuit);
    CHECK(circuit->parts.size() == 5);
    CHECK(circuit->wires.size() == 5);
    CHECK(circuit->find_part("horn-G1") == nullptr);
    const Wire& feed = *circuit->find_wire("horn-W1");
    CHECK(circuit->point_name(feed.from) == "G1.+");
    CHECK(circuit->point_name(feed.to) == "horn-F1.1");
    CHECK(circuit->point_name(circuit->find_wire("horn-W3")->to) == "E9");
    CHECK(circuit->find_part("horn-X1")->words.at(0) == "horn-M1");
    CHECK(circuit->find_part("horn-F1")->place == "box");
    CHECK(circuit->find_part("horn-F1")->where.file == "v/parts/horn.circuit.xml");
    CHECK(circuit->find_quantity("speed") != nullptr);
    CHECK(circuit->find_place("box") != nullptr);
    const auto& state = *circuit->find_state("horn-blown");
    CHECK(std::get<SetStep>(state.steps[0]).what == "horn-F1");
    CHECK(std::get<SetStep>(state.steps[1]).what == "speed");
    CHECK(circuit->files == std::vector<std::string>{"v/a.circuit.xml", "v/parts/horn.circuit.xml"});
}

TEST_CASE("The same file joins twice under two prefixes") {
    const std::string text = vehicle(R"(<include href="parts/horn.circuit.xml" prefix="left-"/>
<include href="parts/horn.circuit.xml" prefix="right-"><same id="G1" as="left-G1"/></include>)");
    const auto circuit = read_circuit(
        "v/a.circuit.xml", source_of({{"v/a.circuit.xml", text}, {"v/parts/horn.circuit.xml", kHorn}}));
    REQUIRE(circuit);
    CHECK(circuit->parts.size() == 11);
    CHECK(circuit->point_name(circuit->find_wire("right-W1")->from) == "left-G1.+");
    CHECK(circuit->files.size() == 2);
}

TEST_CASE("Includes nest, and every level adds its prefix") {
    const std::string middle = circuit_text("", "", "", "<include href=\"horn.circuit.xml\" prefix=\"b-\"/>");
    const std::string text = vehicle("<include href=\"./parts//middle.circuit.xml\" prefix=\"a-\"/>");
    const auto circuit = read_circuit("v/a.circuit.xml", source_of({{"v/a.circuit.xml", text},
                                                                    {"v/parts/middle.circuit.xml", middle},
                                                                    {"v/parts/horn.circuit.xml", kHorn}}));
    REQUIRE(circuit);
    CHECK(circuit->find_part("a-b-F1") != nullptr);
    CHECK(circuit->find_part("a-b-X1")->words.at(0) == "a-b-M1");
}

TEST_CASE("Ids that clash are reported at the include with both places") {
    CHECK_THAT(
        include_error(vehicle(R"(<include «href»="parts/horn.circuit.xml"/>)", R"(<battery id="G1"/>)")),
        Contains("the included G1 (v/parts/horn.circuit.xml:") && Contains("stands at v/a.circuit.xml:"));
    CHECK_THAT(include_error(vehicle(R"(<include «href»="parts/horn.circuit.xml"/>)", "",
                                     R"(<wire id="W1" from="G1.-" to="E1" ohm="1" colour="BK"/>)")),
               Contains("the included W1"));
}

TEST_CASE("A same names what both files have, of one kind") {
    const auto with = [](const std::string& same) {
        return vehicle("<include href=\"parts/horn.circuit.xml\" prefix=\"horn-\">" + same + "</include>");
    };
    CHECK_THAT(include_error(with(R"(«<»same id="G1" as="G2"/>)")),
               Contains("no part G2 here (did you mean G1?)"));
    CHECK_THAT(include_error(with(R"(«<»same id="G1" as="E9"/>)")),
               Contains("is a battery but E9 is a ground-point"));
    CHECK_THAT(include_error(with(R"(«<»same id="G3" as="G1"/>)")),
               Contains("no part or wire G3 (did you mean G1?)"));
    CHECK_THAT(include_error(with("<same id=\"G1\" as=\"G1\"/>\n<same «id»=\"G1\" as=\"G1\"/>")),
               Contains("twice"));
    CHECK_THAT(include_error(with(R"(«<»same id="W1" as="W9"/>)")), Contains("no wire W9 here"));
}

TEST_CASE("A quantity both files have is one, in one unit") {
    const std::string text = vehicle(R"(<include «href»="parts/horn.circuit.xml" prefix="h-"/>
<quantities><quantity id="speed" unit="mph" min="0" max="80" value="0"/></quantities>)");
    CHECK_THAT(include_error(text), Contains("mph here and in km/h"));
}

TEST_CASE("An included circuit is for the same supply") {
    const std::string truck =
        "<circuit xmlns='urn:halfsplit:circuit' version='1' id='t' title='T' "
        "nominal-v='24'><about>T.</about><parts/></circuit>";
    CHECK_THAT(include_error(vehicle("<include «href»='t.circuit.xml'/>"), {{"v/t.circuit.xml", truck}}),
               Contains("24 in the included file and 12 here"));
}

TEST_CASE("Only files below the including file's folder can be included") {
    for (const char* href : {"../a.circuit.xml", "/etc/a.circuit.xml", "b/../../a.circuit.xml",
                             "b\\a.circuit.xml", "file:///a.circuit.xml", "C:/a.circuit.xml",
                             "https://example.org/a.circuit.xml", "b/", ".", "..", "./..", "//"})
        CHECK_FALSE(reading::included_path("v/a.circuit.xml", href));
    CHECK(reading::included_path("v/a.circuit.xml", "b/c.circuit.xml").value() == "v/b/c.circuit.xml");
    CHECK(reading::included_path("a.circuit.xml", "./b//c.circuit.xml").value() == "b/c.circuit.xml");
    CHECK(reading::included_path("/v/a.circuit.xml", "..c.xml").value() == "/v/..c.xml");
    CHECK_THAT(include_error(vehicle("<include «href»='../horn.circuit.xml'/>")),
               Contains("leads out of the folder"));
    CHECK_THAT(include_error(vehicle("<include «href»=''/>")), Contains("href is empty"));
    CHECK_THAT(include_error(vehicle("«<»include/>")), Contains("<include> has no href"));
}

TEST_CASE("A file that cannot be read is named where it is asked for") {
    CHECK_THAT(include_error(vehicle("<include «href»='none.circuit.xml'/>")),
               Contains("cannot read v/none.circuit.xml: no such file"));
    const auto missing = read_circuit("x.circuit.xml", source_of({}));
    REQUIRE_FALSE(missing);
    CHECK(to_text(missing.error().front()) ==
          "x.circuit.xml: error: cannot read x.circuit.xml: no such file");
}

TEST_CASE("A loop of includes is named with its chain") {
    const Files files{{"a.circuit.xml", circuit_text("", "", "", "<include href='b/b.circuit.xml'/>")},
                      {"b/b.circuit.xml", circuit_text("", "", "", "<include href='c.circuit.xml'/>")},
                      {"b/c.circuit.xml", circuit_text("", "", "", "\n <include href='b.circuit.xml'/>")}};
    const auto result = read_circuit("a.circuit.xml", source_of(files));
    REQUIRE_FALSE(result);
    REQUIRE(result.error().size() == 1);
    CHECK_THAT(
        to_text(result.error().front()),
        Contains(
            "b/c.circuit.xml:4:11: error: the files include each other: a.circuit.xml -> b/b.circuit.xml -> "
            "b/c.circuit.xml -> b/b.circuit.xml") &&
            Contains("(included from b/b.circuit.xml:3:10) (included from a.circuit.xml:3:10)"));
    CHECK_FALSE(read_circuit(
        "s.circuit.xml",
        source_of({{"s.circuit.xml", circuit_text("", "", "", "<include href='s.circuit.xml'/>")}})));
}

TEST_CASE("An error in an included file carries that file's name and the include that led there") {
    const Files files{
        {"a.circuit.xml",
         circuit_text(
             R"(<battery id="G1"/>)", R"(<wire id="W1" from="G1.+" to="h-F1.1" ohm="1" colour="RD"/>)", "",
             "<include href='h.circuit.xml' prefix='h-'/><include href='h.circuit.xml' prefix='i-'/>")},
        {"h.circuit.xml", circuit_text("<fuse id='F1'/>")}};
    const auto result = read_circuit("a.circuit.xml", source_of(files));
    REQUIRE_FALSE(result);
    REQUIRE(result.error().size() == 1);
    CHECK(result.error().front().where.file == "h.circuit.xml");
    CHECK(result.error().front().where.line == 3);
    CHECK_THAT(result.error().front().message, Contains("(included from a.circuit.xml:3:10)"));
}

TEST_CASE("Includes nest no deeper than the limit and fill no more memory together than one file") {
    const int limit = halfsplit::xml::kMaxIncludeDepth;
    const auto chain = [](int length) {
        Files files;
        for (int i = 0; i < length; ++i)
            files["f" + std::to_string(i)] =
                circuit_text("", "", "", "<include href='f" + std::to_string(i + 1) + "' prefix='p'/>");
        files["f" + std::to_string(length)] = circuit_text("");
        return files;
    };
    CHECK(read_circuit("f0", source_of(chain(limit))));
    const auto deep = read_circuit("f0", source_of(chain(limit + 1)));
    REQUIRE_FALSE(deep);
    CHECK_THAT(deep.error().front().message, Contains("deeper than 8 files"));

    std::string tree = "<include href='big' prefix='a0'/>";
    for (int i = 1; i < 70; ++i) tree += "<include href='big' prefix='a" + std::to_string(i) + "'/>";
    const std::string big = circuit_text("<!--" + std::string(1U << 20U, ' ') + "-->");
    const auto large = read_circuit("a", source_of({{"a", circuit_text("", "", "", tree)}, {"big", big}}));
    REQUIRE_FALSE(large);
    CHECK_THAT(large.error().front().message, Contains("larger than 64 MiB"));

    if (kSanitized) return;  // half a million elements are minutes there
    std::string many = "<!-- -->";
    for (int i = 0; i < 10'000; ++i) many += "<splice id='J" + std::to_string(i) + "'/>";
    const auto numerous =
        read_circuit("a", source_of({{"a", circuit_text("", "", "", tree)}, {"big", circuit_text(many)}}));
    REQUIRE_FALSE(numerous);
    CHECK_THAT(numerous.error().front().message, Contains("more than 500000 elements"));
}
