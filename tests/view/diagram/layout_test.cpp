#include "ui/view/diagram/layout.h"

#include <catch2/catch.hpp>
#include <filesystem>

#include "engine/xml/writer.h"
#include "tests/support/circuit_text.h"
#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/random_circuit.h"
#include "ui/view/diagram/draw.h"
#include "ui/view/diagram/svg_canvas.h"

using namespace halfsplit;
using namespace halfsplit::test;
using namespace halfsplit::view::diagram;

namespace {

std::vector<std::string> shipped_circuits() {
    std::vector<std::string> paths;
    const std::filesystem::path folder = std::filesystem::path(HALFSPLIT_SOURCE_DIR) / "circuits";
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().string().ends_with(".circuit.xml")) paths.push_back("circuits/" + entry.path().filename().string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

std::string svg_of(const Diagram& diagram) {
    SvgCanvas canvas(diagram.bounds, diagram.title);
    draw(diagram, canvas);
    return xml::written(canvas.picture());
}

void check_sound(const Diagram& diagram, const model::Circuit& circuit, const Selection& selection) {
    const std::vector<std::string> complaints = all_complaints(diagram, circuit, selection);
    for (std::size_t i = 0; i < std::min<std::size_t>(complaints.size(), 10); ++i) UNSCOPED_INFO(complaints[i]);
    CHECK(complaints.size() == 0);
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
    for (std::uint64_t start = 1; start <= 300; ++start) {
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
