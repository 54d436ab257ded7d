#include <catch2/catch.hpp>

#include "tests/support/circuit_text.h"
#include "tests/view/diagram/drawing_checks.h"
#include "ui/view/diagram/layout.h"

using namespace halfsplit;
using namespace halfsplit::test;
using namespace halfsplit::view::diagram;

// The checks of diagrams must see what is wrong: here a sound diagram is spoilt in one place each.

namespace {

struct Sound {
    model::Circuit circuit = circuit_file("circuits/entry-step.circuit.xml");
    Selection selection = everything(circuit);
    Diagram diagram = lay_out(circuit);

    WireLine& wire(const std::string& id) {
        return *std::find_if(diagram.wires.begin(), diagram.wires.end(),
                             [&](const WireLine& wire) { return wire.wire == id; });
    }
    Symbol& symbol(const std::string& part) {
        return *std::find_if(diagram.symbols.begin(), diagram.symbols.end(),
                             [&](const Symbol& symbol) { return symbol.part == part; });
    }
    Label& label(const std::string& owner) {
        return *std::find_if(diagram.labels.begin(), diagram.labels.end(),
                             [&](const Label& label) { return label.owner == owner; });
    }
};

}  // namespace

TEST_CASE("A symbol pushed under a wire is seen") {
    Sound sound;
    REQUIRE(lines_through_symbols(sound.diagram).empty());
    const Spot on_wire = sound.wire("W2").path.front();
    const Box ink = sound.symbol("P1").ink;
    sound.symbol("P1").ink = {on_wire.x - 5, on_wire.y + 5, on_wire.x - 5 + ink.width(),
                              on_wire.y + 5 + ink.height()};
    CHECK_FALSE(lines_through_symbols(sound.diagram).empty());
}

TEST_CASE("A wire laid over another is seen, and one that ends on another") {
    Sound sound;
    REQUIRE(false_joints(sound.diagram).empty());
    sound.wire("W2").path = sound.wire("W15").path;
    CHECK_FALSE(false_joints(sound.diagram).empty());
    Sound other;
    const auto& path = other.wire("W15").path;
    const Spot middle{path.front().x, (path.front().y + path[1].y) / 2};
    other.wire("W2").path = {middle, {middle.x + 5, middle.y}};
    CHECK_FALSE(false_joints(other.diagram).empty());
}

TEST_CASE("A text on another, on a line or cut short is seen") {
    Sound sound;
    REQUIRE(illegible_texts(sound.diagram).empty());
    sound.label("P1").box = sound.label("G1").box;
    CHECK_FALSE(illegible_texts(sound.diagram).empty());
    Sound on_line;
    const Spot corner = on_line.wire("W2").path.front();
    Box& box = on_line.label("P1").box;
    box = {corner.x - 1, corner.y + 5, corner.x - 1 + box.width(), corner.y + 5 + box.height()};
    CHECK_FALSE(illegible_texts(on_line.diagram).empty());
    Sound cut;
    cut.label("P1").box.right -= 2;
    CHECK_FALSE(illegible_texts(cut.diagram).empty());
}

TEST_CASE("A wire left out, drawn twice, cut short or without its colour is seen") {
    const auto complaints = [](const Sound& sound) {
        return wires_amiss(sound.diagram, sound.circuit, sound.selection).size();
    };
    Sound sound;
    REQUIRE(complaints(sound) == 0);
    Sound without = sound;
    without.diagram.wires.pop_back();
    CHECK(complaints(without) > 0);
    Sound twice = sound;
    twice.diagram.wires.push_back(twice.diagram.wires.front());
    CHECK(complaints(twice) > 0);
    Sound cut = sound;
    cut.wire("W15").path.back().y -= 1;
    CHECK(complaints(cut) > 0);
    Sound bare = sound;
    std::erase_if(bare.diagram.labels, [](const Label& label) { return label.owner == "W15"; });
    CHECK(complaints(bare) > 0);
}

TEST_CASE("A part, a name of a pin or a dot left out is seen") {
    Sound sound;
    REQUIRE(parts_amiss(sound.diagram, sound.circuit, sound.selection).empty());
    REQUIRE(dots_amiss(sound.diagram).empty());
    Sound without = sound;
    std::erase_if(without.diagram.symbols, [](const Symbol& symbol) { return symbol.part == "P1"; });
    CHECK_FALSE(parts_amiss(without.diagram, without.circuit, without.selection).empty());
    Sound unnamed = sound;
    std::erase_if(unnamed.diagram.labels,
                  [](const Label& label) { return label.owner == "P1" && label.role == Label::Role::pin; });
    CHECK_FALSE(parts_amiss(unnamed.diagram, unnamed.circuit, unnamed.selection).empty());
    Sound undotted = sound;
    undotted.diagram.dots.clear();
    CHECK_FALSE(dots_amiss(undotted.diagram).empty());
}

TEST_CASE("What leaves the bounds is seen") {
    Sound sound;
    REQUIRE(out_of_bounds(sound.diagram).empty());
    sound.diagram.bounds.right -= 20;
    CHECK_FALSE(out_of_bounds(sound.diagram).empty());
}
