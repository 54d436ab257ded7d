#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "tests/support/files.h"

using Catch::Contains;
using namespace halfsplit;
using namespace halfsplit::test;

namespace {

bool keeps_to_schema(const std::string& path) {
    const std::string command = std::string(HALFSPLIT_XMLLINT) + " --nonet --noout --schema " +
                                project_file("circuits/circuit.xsd") + " " + path + " 2>/dev/null";
    return std::system(command.c_str()) == 0;
}

struct Broken {
    const char* file;
    int line;
    int column;
    const char* says;
    bool schema_knows;
};

}  // namespace

TEST_CASE("A circuit with a part of every kind reads, and keeps to the schema") {
    const std::string path = project_file("tests/data/every-kind.circuit.xml");
    const auto circuit = model::read_circuit(path, read_file);
    if (!circuit) FAIL(to_text(circuit.error().front()));
    for (const model::PartKind* kind : model::part_kinds()) {
        INFO(kind->element);
        CHECK(std::any_of(circuit->parts.begin(), circuit->parts.end(),
                          [&](const model::Part& part) { return part.kind == kind; }));
    }
    CHECK(circuit->wires.size() == 8);
    CHECK(circuit->states.size() == 2);
    CHECK(circuit->find_part("added-G1") == nullptr);
    CHECK(circuit->point_name(circuit->find_wire("added-W1")->from) == "G1.+");
    CHECK(keeps_to_schema(path));
}

// Lines and columns are those a text editor shows at the attribute's name or the element's "<".
TEST_CASE("Each broken file is refused with one clear message at its place") {
    const auto broken = GENERATE(values<Broken>({
        {"unknown-attribute", 9, 19, "<fuse> has no attribute rating (did you mean rating-a?)", true},
        {"misspelt-id", 10, 19, "there is no place sil (did you mean sill?)", false},
        {"missing-unit-value", 15, 57, "length-m: the value is empty; a number is expected", true},
        {"unclosed-element", 11, 5, "<ground-point> is not closed; /> or </ground-point> is expected", true},
        {"include-loop", 4, 12, "the files include each other", false},
        {"include-outside", 4, 12, "leads out of the folder", false},
        {"entity-bomb", 2, 1, "document types are not allowed", true},
        {"comma-number", 14, 41, "'1,5' is not a number; a decimal point is expected, not a comma", true},
        {"wire-to-nowhere", 15, 31, "to: H2.1 is no point; there is no part H2 (did you mean H1?)", false},
    }));
    const std::string path = project_file("tests/data/broken/" + std::string(broken.file) + ".circuit.xml");
    INFO(path);
    const auto circuit = model::read_circuit(path, read_file);
    REQUIRE_FALSE(circuit);
    REQUIRE(circuit.error().size() == 1);
    CHECK(circuit.error().front().where.line == broken.line);
    CHECK(circuit.error().front().where.column == broken.column);
    CHECK_THAT(circuit.error().front().message, Contains(broken.says));
    CHECK(keeps_to_schema(path) == !broken.schema_knows);
}

TEST_CASE("A loop names the file that closes it, the chain and the include that led there") {
    const std::string path = project_file("tests/data/broken/include-loop.circuit.xml");
    const auto circuit = model::read_circuit(path, read_file);
    REQUIRE_FALSE(circuit);
    CHECK(circuit.error().front().where.file ==
          project_file("tests/data/broken/include-loop-back.circuit.xml"));
    CHECK_THAT(circuit.error().front().message,
               Contains("include-loop.circuit.xml -> ") && Contains("(included from " + path + ":4:12)"));
}

TEST_CASE("Two hundred megabytes of nesting are refused") {
    const std::string path =
        (std::filesystem::temp_directory_path() / "halfsplit-nesting.circuit.xml").string();
    {
        std::ofstream file(path, std::ios::binary);
        file << "<circuit xmlns=\"urn:halfsplit:circuit\">";
        std::string block;
        for (int i = 0; i < 1000; ++i) block += "<a>\n";
        for (int i = 0; i < 50'000; ++i) file << block;
        REQUIRE(file);
    }
    const auto whole = model::read_circuit(path, read_file);
    std::filesystem::resize_file(path, xml::kMaxBytes);
    const auto cut = model::read_circuit(path, read_file);
    std::filesystem::remove(path);
    REQUIRE_FALSE(whole);
    CHECK_THAT(to_text(whole.error().front()), Contains("the file is too large; 64 MiB"));
    REQUIRE_FALSE(cut);
    CHECK(cut.error().front().where.line == 64);
    CHECK_THAT(cut.error().front().message, Contains("nest deeper than 64 levels"));
}
