#include "engine/practice/scenario/read_scenario.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>

#include "engine/practice/scenario/structure.h"
#include "engine/practice/scenario/write_scenario.h"
#include "tests/practice/scenario_texts.h"
#include "tests/support/marked.h"

using namespace halfsplit;
using test::kBothSilent;
using test::scenario_text;

namespace {

/// The one error of a scenario, which must stand where the text marks it.
std::string error_at_its_mark(const std::string& marked_text) {
    const test::Marked marked = test::unmark(marked_text);
    const auto read = test::read_scenario_text(marked.text);
    REQUIRE_FALSE(read);
    INFO(to_text(read.error().front()));
    CHECK(read.error().size() == 1);
    CHECK(read.error().front().where.line == marked.line);
    CHECK(read.error().front().where.column == marked.column);
    return read.error().front().message;
}

}  // namespace

TEST_CASE("A scenario is read with its circuit") {
    const auto read =
        test::scenario_of(scenario_text("<fault spec=\"open:X3.1\"/>", kBothSilent, "level=\"2\""));
    CHECK(read.circuit_path == "circuits/horn.circuit.xml");
    CHECK(read.circuit.id == "horn");
    const practice::Scenario& scenario = read.scenario;
    CHECK(scenario.level == 2);
    CHECK(scenario.job_card.complaint == "It is silent.");
    CHECK(scenario.hints == std::vector<std::string>{"First.", "Second."});
    REQUIRE(scenario.symptoms.size() == 2);
    CHECK(read.circuit.states[static_cast<std::size_t>(scenario.symptoms[0].state)].id == "sounding");
    REQUIRE(scenario.faults.size() == 1);
    CHECK(scenario.faults[0].text == "open:X3.1");
    CHECK(scenario.instruments.size() > 5);
}

TEST_CASE("What is wrong in a scenario is told with its place and what was expected") {
    CHECK(error_at_its_mark(scenario_text("<fault «»spec=\"open:X9.1\"/>", kBothSilent)).find("X9.1") !=
          std::string::npos);
    CHECK(error_at_its_mark(scenario_text("<fault spec=\"open:X3.1\"/>", kBothSilent, "«»level=\"1.5\""))
              .find("whole number") != std::string::npos);
    CHECK(error_at_its_mark(scenario_text("<fault spec=\"open:X3.1\"/>", kBothSilent, "«»level=\"6\""))
              .find("1 to 5") != std::string::npos);
    CHECK(error_at_its_mark(scenario_text("<fault spec=\"open:X3.1\"/>",
                                          "<symptom «»state=\"soundin\" at=\"P3\" shows=\"silent\"/>"))
              .find("did you mean sounding") != std::string::npos);
    CHECK(error_at_its_mark(scenario_text("<fault spec=\"open:X3.1\"/>",
                                          "<symptom state=\"sounding\" at=\"P3\" «»shows=\"lit\"/>"))
              .find("sounds, faint or silent") != std::string::npos);
    CHECK(error_at_its_mark(
              scenario_text("<fault spec=\"open:X3.1\"/>", "«»<symptom state=\"sounding\" at=\"P3\"/>"))
              .find("one of shows, reads-a and reads-v") != std::string::npos);
}

TEST_CASE("A scenario with a fault and without a symptom is refused, one without a fault is not") {
    CHECK_FALSE(test::read_scenario_text(scenario_text("<fault spec=\"open:X3.1\"/>", "")));
    CHECK(test::read_scenario_text(scenario_text("", "")));
}

TEST_CASE("A scenario's circuit is named from its folder") {
    CHECK(practice::circuit_path_of("scenarios/a.xml", "../circuits/horn.circuit.xml").value() ==
          "circuits/horn.circuit.xml");
    CHECK(practice::circuit_path_of("a.xml", "../circuits/horn.circuit.xml").value() ==
          "../circuits/horn.circuit.xml");
    CHECK(practice::circuit_path_of("/x/y/a.xml", "../../c/d.circuit.xml").value() == "/c/d.circuit.xml");
    CHECK(practice::circuit_path_of("../a/b.xml", "../../d.circuit.xml").value() == "../../d.circuit.xml");
    for (const char* refused : {"/etc/passwd", "http://x/y.circuit.xml", "a\\b.circuit.xml", "horn.xml", ""})
        CHECK_FALSE(practice::circuit_path_of("scenarios/a.xml", refused));
}

TEST_CASE("A scenario that is written and read again is the same") {
    const auto first = test::scenario_of(
        scenario_text("<fault spec=\"open:X3.1\"/><lesson>A &lt;b&gt; \"c\" &amp; d.</lesson>", kBothSilent,
                      "level=\"3\""));
    const std::string text =
        practice::written_scenario(first.scenario, first.circuit, "../circuits/horn.circuit.xml");
    const auto again = test::scenario_of(text);
    CHECK(practice::written_scenario(again.scenario, again.circuit, "../circuits/horn.circuit.xml") == text);
    CHECK(again.scenario.lesson == first.scenario.lesson);
    CHECK(again.scenario.level == 3);
    CHECK(again.scenario.faults[0].text == "open:X3.1");
    CHECK(again.scenario.symptoms.size() == 2);
}

TEST_CASE(
    "scenarios/scenario.xsd is what the declarations say (halfsplit check --scenario-schema writes it)") {
    const auto file = test::read_file(test::project_file("scenarios/scenario.xsd"));
    REQUIRE(file);
    CHECK((*file == practice::scenario_schema()));
}

TEST_CASE("Every scenario as shipped reads, and is valid to xmllint too") {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::project_file("scenarios"))) {
        const std::string path = entry.path().string();
        if (!path.ends_with(".scenario.xml")) continue;
        ++count;
        const auto read =
            practice::read_scenario(path, [](const std::string& file) { return test::read_file(file); });
        INFO(path << (read ? "" : to_text(read.error().front())));
        CHECK(read.has_value());
        const std::string command = std::string(HALFSPLIT_XMLLINT) + " --nonet --noout --schema " +
                                    test::project_file("scenarios/scenario.xsd") + " " + path +
                                    " 2>/dev/null";
        CHECK(std::system(command.c_str()) == 0);
    }
    CHECK(count > 0);
}
