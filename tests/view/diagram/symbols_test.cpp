#include <catch2/catch.hpp>
#include <map>

#include "tests/support/circuit_text.h"
#include "tests/support/part_builder.h"
#include "tests/view/diagram/recording_canvas.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/layout.h"
#include "ui/view/diagram/wire_colours.h"

using namespace halfsplit;
using namespace halfsplit::test;
using namespace halfsplit::view::diagram;

namespace {

/// One part of the kind, with no wire.
Diagram alone(const model::PartKind& kind) {
    model::Circuit circuit;
    model::Part part = PartBuilder(kind).part();
    if (kind.pin_policy == model::PinPolicy::authored)
        part.pins = {
            {"1", "supply", {}, {}}, {"2", "ground", {}, {}}, {"3", "input", {}, {}}, {"4", "input", {}, {}}};
    if (kind.authored_positions)
        part.positions = {{"off", "", false, {{0, 1}}, {}}, {"on", "", false, {{0, 2}, {1, 3}}, {}}};
    circuit.parts.push_back(part);
    return lay_out(circuit);
}

RecordingCanvas& recorded(RecordingCanvas& canvas, const Symbol& symbol) {
    draw_symbol(symbol, canvas);
    return canvas;
}

}  // namespace

TEST_CASE("Every kind of part has a picture of its own arrangement, and nothing else has") {
    for (const model::PartKind* kind : model::part_kinds()) {
        INFO(kind->element);
        CHECK(find_picture(kind->element) != nullptr);
    }
    CHECK(find_picture("teapot") == nullptr);
}

TEST_CASE("Every symbol is drawn, within its ink, and its ends reach its terminals") {
    constexpr double kLine = 1;  // half the thickness of the thickest stroke, and some
    for (const model::PartKind* kind : model::part_kinds()) {
        INFO(kind->element);
        const Diagram diagram = alone(*kind);
        REQUIRE(diagram.symbols.size() == 1);
        const Symbol& symbol = diagram.symbols.front();
        RecordingCanvas canvas;
        recorded(canvas, symbol);
        CHECK(canvas.strokes > 0);
        CHECK(canvas.left >= symbol.ink.left - kLine);
        CHECK(canvas.right <= symbol.ink.right + kLine);
        CHECK(canvas.top >= symbol.ink.top - kLine);
        CHECK(canvas.bottom <= symbol.ink.bottom + kLine);
        for (const Terminal& terminal : symbol.terminals) {
            const int edge = terminal.side == Side::top ? symbol.ink.top : symbol.ink.bottom;
            CHECK(terminal.at.y == edge);
            CHECK((symbol.ink.left <= terminal.at.x && terminal.at.x <= symbol.ink.right));
        }
    }
}

// IEC 60617, from memory: a motor is a circle with M, a generator one with G, the long stroke of a cell is
// its positive pole, a diode's triangle points to its cathode.
TEST_CASE("Signs that tell something stand the right way round") {
    const model::Circuit circuit = circuit_of(
        "<battery id='G1'/><motor id='M1' no-load-a='1' stall-a='10'/><diode id='V1'/><ground-point "
        "id='E1'/>",
        "<wire id='W1' from='G1.+' to='V1.A' area-mm2='1' length-m='1'/>"
        "<wire id='W2' from='V1.K' to='M1.1' area-mm2='1' length-m='1'/>"
        "<wire id='W3' from='M1.2' to='E1' area-mm2='1' length-m='1'/>"
        "<wire id='W4' from='G1.-' to='E1' area-mm2='1' length-m='1'/>");
    const Diagram diagram = lay_out(circuit);
    std::map<std::string, const Symbol*> by_part;
    for (const Symbol& symbol : diagram.symbols) by_part[symbol.part] = &symbol;
    RecordingCanvas motor;
    CHECK(recorded(motor, *by_part.at("M1")).texts == std::vector<std::string>{"M"});
    const auto side_of = [&](const char* part, const char* pin) {
        for (const Terminal& terminal : by_part.at(part)->terminals)
            if (terminal.name == pin) return terminal.side;
        throw std::out_of_range(pin);
    };
    CHECK(side_of("G1", "+") == Side::top);
    CHECK(side_of("V1", "A") == Side::top);
    CHECK(side_of("M1", "2") == Side::bottom);
}

// IEC 60757: the letters of the colours. That white is white and black is black needs no source.
TEST_CASE("Wires are drawn in their colours over a dark outline, so that white shows on paper") {
    CHECK(wire_colour("WH") == Colour{255, 255, 255});
    CHECK(wire_colour("BK") == Colour{0, 0, 0});
    const Colour red = wire_colour("RD");
    CHECK((red.red > 2 * red.green && red.red > 2 * red.blue));
    Diagram diagram;
    diagram.wires.push_back({"W1", "A.1", "B.1", "WH", "GN", {{0, 0}, {0, 30}}});
    RecordingCanvas canvas;
    draw(diagram, canvas);
    REQUIRE(canvas.pens.size() == 3);
    CHECK(canvas.pens[0].colour == kInk);
    CHECK(canvas.pens[0].width > canvas.pens[1].width);
    CHECK(canvas.pens[1].colour == wire_colour("WH"));
    CHECK(canvas.pens[2].colour == wire_colour("GN"));
    CHECK(canvas.pens[2].dash > 0);
}

TEST_CASE("Parts, wires and rails can be found in the picture by their ids") {
    const model::Circuit circuit = circuit_file("circuits/horn.circuit.xml");
    RecordingCanvas canvas;
    draw(lay_out(circuit), canvas);
    CHECK(canvas.ended == static_cast<int>(canvas.subjects.size()));
    const auto is_there = [&](const std::string& id) {
        return std::any_of(canvas.subjects.begin(), canvas.subjects.end(),
                           [&](const Subject& subject) { return subject.id == id; });
    };
    for (const model::Part& part : circuit.parts) CHECK(is_there(part.id));
    for (const model::Wire& wire : circuit.wires) CHECK(is_there(wire.id));
}
