#include "engine/practice/verdict/foresight.h"

#include <catch2/catch.hpp>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "tests/practice/scenario_texts.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using namespace halfsplit::practice;

namespace {

const ScenarioWithCircuit& lights_in_order() {
    static const ScenarioWithCircuit read = [] {
        std::string text = test::scenario_text("", "");
        const std::string horn = "horn.circuit.xml";
        text.replace(text.find(horn), horn.size(), "exterior-lights.circuit.xml");
        return test::scenario_of(text);
    }();
    return read;
}

const Expertise& expertise_on_lights() {
    static const Expertise expertise = [] {
        const ScenarioWithCircuit& read = lights_in_order();
        diagnosis::DictionaryOptions options{.states = {"key-off", "dip"}};
        for (const network::Fault& fault : test::faults_of(read.circuit, {"blown:F1", "open:E13"}))
            options.faults.push_back({fault, 1});
        return expertise_for(read.scenario, read.circuit,
                             diagnosis::make_dictionary(read.circuit, options).value())
            .value();
    }();
    return expertise;
}

Foresight after_doing(const std::vector<std::string>& script) {
    auto session = Session::begin(lights_in_order().scenario, lights_in_order().circuit);
    REQUIRE(session);
    for (const std::string& line : script) REQUIRE(session->act(read_action(line).value()));
    return {*session, expertise_on_lights()};
}

constexpr int kMainFuse = 0;
constexpr int kOneSideLamp = 1;

}  // namespace

// By hand from the circuit file: all lamps hang on F1; E13 is one of them.
TEST_CASE("With all lamps lit a blown main fuse is out of the question, and one dark lamp is not") {
    const Foresight foresight = after_doing({"look", "state dip"});
    CHECK(foresight.entry() == 1);
    CHECK(foresight.rules_out(kMainFuse));
    CHECK_FALSE(foresight.rules_out(kOneSideLamp));
}

TEST_CASE("Nothing is foreseen of a vehicle somebody has measured or worked on before") {
    CHECK(after_doing({"measure voltmeter F1.1", "state dip"}).entry() == -1);
    CHECK(after_doing({"pull F1", "push F1", "state dip"}).entry() == -1);
    CHECK_FALSE(after_doing({"look"}).rules_out(kMainFuse));
}
