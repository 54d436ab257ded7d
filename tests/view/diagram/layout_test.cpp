#include "ui/view/diagram/layout.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "engine/xml/document.h"
#include "engine/xml/writer.h"
#include "tests/support/circuit_text.h"
#include "tests/support/sanitized.h"
#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/random_circuit.h"
#include "tests/view/diagram/shipped.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/svg_canvas.h"
#include "ui/view/diagram/text_metrics.h"

using namespace halfsplit;
using namespace halfsplit::test;
using namespace halfsplit::view::diagram;

namespace {

std::string svg_of(const Diagram& diagram) {
    SvgCanvas canvas(diagram.bounds, diagram.title);
    draw(diagram, canvas);
    return xml::written(canvas.picture());
}

void check_sound(const Diagram& diagram, const model::Circuit& circuit, const Selection& selection) {
    const std::vector<std::string> complaints = all_complaints(diagram, circuit, selection);
    for (std::size_t i = 0; i < std::min<std::size_t>(complaints.size(), 10); ++i)
        UNSCOPED_INFO(complaints[i]);
    CHECK(complaints.size() == 0);
}

/// How far a text is from a level line.
int gap_between(const Box& box, const Rail& rail) {
    const int y = rail.path.front().y;
    const int beside = std::max({0, rail.path.front().x - box.right, box.left - rail.path.back().x});
    return std::max({beside, y - box.bottom, box.top - y});
}

}  // namespace

TEST_CASE("Every shipped circuit is drawn completely, legibly and without false joints") {
    const std::vector<std::string> paths = shipped_circuits();
    REQUIRE(paths.size() >= 15);
    for (const std::string& path : paths) {
        INFO(path);
        const model::Circuit circuit = circuit_file(path);
        check_sound(lay_out(circuit), circuit, everything(circuit));
    }
}

TEST_CASE("Every kind of part is drawn completely, legibly and without false joints") {
    const model::Circuit circuit = circuit_file("tests/data/every-kind.circuit.xml");
    check_sound(lay_out(circuit), circuit, everything(circuit));
}

TEST_CASE("Circuits wired at random are drawn completely, legibly and without false joints") {
    for (std::uint64_t start = 1; start <= (test::kSanitized ? 15U : 300U); ++start) {
        INFO("start " << start);
        const model::Circuit circuit = random_circuit(start);
        check_sound(lay_out(circuit), circuit, everything(circuit));
    }
}

TEST_CASE("The same circuit gives the same picture") {
    const model::Circuit circuit = circuit_file("circuits/entry-step.circuit.xml");
    const model::Circuit again = circuit_file("circuits/entry-step.circuit.xml");
    CHECK(svg_of(lay_out(circuit)) == svg_of(lay_out(again)));
}

// The convention of circuit diagrams: current comes from above and goes to ground below (common practice).
TEST_CASE("Batteries have their positive pole on top, ground points lie below what they ground") {
    for (const std::string& path : shipped_circuits()) {
        INFO(path);
        const Diagram diagram = lay_out(circuit_file(path));
        for (const Symbol& symbol : diagram.symbols)
            if (symbol.shape == Shape::battery)
                for (const Terminal& terminal : symbol.terminals)
                    CHECK(terminal.side == (terminal.name == "+" ? Side::top : Side::bottom));
        for (const WireLine& wire : diagram.wires)
            for (const Symbol& symbol : diagram.symbols) {
                if (symbol.shape != Shape::ground) continue;
                if (wire.to == symbol.part) CHECK(wire.path.front().y < wire.path.back().y);
                if (wire.from == symbol.part) CHECK(wire.path.back().y < wire.path.front().y);
            }
    }
}

// A name is read as that of the line it is nearest to (common practice).
TEST_CASE("The name of a splice is nearer to its own rail than to any other") {
    for (const std::string& path : shipped_circuits()) {
        const Diagram diagram = lay_out(circuit_file(path));
        for (const Label& label : diagram.labels) {
            if (label.role != Label::Role::rail) continue;
            int own = 1 << 30;
            int other = 1 << 30;
            for (const Rail& rail : diagram.rails) {
                int& least = rail.splice == label.owner ? own : other;
                least = std::min(least, gap_between(label.box, rail));
            }
            INFO(path << " " << label.text);
            CHECK(own < other);
        }
    }
}

TEST_CASE("The entry step fits a landscape A4 sheet with letters no smaller than 2 mm") {
    const Diagram diagram = lay_out(circuit_file("circuits/entry-step.circuit.xml"));
    const double scale =
        std::min(277.0 * kUnitsPerMm / diagram.bounds.width(), 190.0 * kUnitsPerMm / diagram.bounds.height());
    CHECK(kTextSize / kUnitsPerMm * scale >= 2);
    CHECK(print_scale(diagram) == Approx(std::min(1.0, scale)));
}

TEST_CASE("The author's columns and rows win") {
    const char* harness =
        "<wire id='W1' from='G1.+' to='F1.1' area-mm2='1' length-m='1'/>"
        "<wire id='W2' from='G1.+' to='F2.1' area-mm2='1' length-m='1'/>";
    const auto x_of = [&](const std::string& first, const std::string& second) {
        const Diagram diagram = lay_out(circuit_of("<battery id='G1'/><fuse id='F1' rating-a='5'" + first +
                                                       "/><fuse id='F2' rating-a='5'" + second + "/>",
                                                   harness));
        std::map<std::string, Spot> at;
        for (const Symbol& symbol : diagram.symbols) at[symbol.part] = {symbol.ink.left, symbol.ink.top};
        return at;
    };
    auto hinted = x_of(" at='4 1'", " at='2 1'");
    CHECK(hinted["F2"].x < hinted["F1"].x);
    hinted = x_of(" at='2 1'", " at='4 1'");
    CHECK(hinted["F1"].x < hinted["F2"].x);
    hinted = x_of(" at='2 3'", " at='4 1'");
    CHECK(hinted["F2"].y < hinted["F1"].y);
}

// Followed by hand on the circuit file: J1 - F26 - X20.1 feed the unit that turns M7, E40 grounds it, G1
// returns to E1; nothing else is needed for the motor to be driven.
TEST_CASE("A part is drawn with all on its ways to supply and ground and nothing more") {
    const model::Circuit circuit = circuit_file("circuits/entry-step.circuit.xml");
    const auto names = [&](const Selection& selection) {
        std::set<std::string> parts;
        for (const int part : selection.parts) parts.insert(circuit.parts[static_cast<std::size_t>(part)].id);
        return parts;
    };
    CHECK(names(ways_of(circuit, {"M7"})) ==
          std::set<std::string>{"A1", "E1", "E40", "F1", "F26", "G1", "J1", "M7", "X20"});
    CHECK(names(ways_of(circuit, {"P1"})) ==
          std::set<std::string>{"E1", "E2", "F1", "F2", "F4", "G1", "G2", "J1", "J2", "P1", "S1"});
    CHECK(ways_of(circuit, {}).parts.empty());
    for (const char* part : {"M7", "S20", "B1", "G2", "M8"}) {
        const Selection selection = ways_of(circuit, {part});
        check_sound(lay_out(circuit, selection), circuit, selection);
    }
}

TEST_CASE("A circuit without parts gives an empty picture") {
    const Diagram diagram = lay_out(model::Circuit{});
    CHECK(diagram.symbols.empty());
    CHECK(diagram.bounds.left == 0);
    CHECK(svg_of(diagram).find("<svg") != std::string::npos);
}

TEST_CASE("The picture is XML, whatever the author writes") {
    model::Circuit circuit = circuit_of("<fuse id='F1' rating-a='5' title='&lt;b&gt; &amp; \"c\"'/>", "");
    const std::string svg = svg_of(lay_out(circuit));
    const auto document = xml::read_document(svg, "a.svg", "http://www.w3.org/2000/svg");
    REQUIRE(document);
    CHECK(document->root.name == "svg");
}
