#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "engine/diagnosis/fault_universe.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;

namespace {

std::set<std::string> texts_of(const model::Circuit& circuit) {
    std::set<std::string> texts;
    for (const diagnosis::PossibleFault& each : diagnosis::fault_universe(circuit))
        texts.insert(each.fault.text);
    return texts;
}

double rate_of(const model::Circuit& circuit, const std::string& text) {
    for (const diagnosis::PossibleFault& each : diagnosis::fault_universe(circuit))
        if (each.fault.text == text) return each.rate;
    FAIL("the universe lacks " + text);
    return 0;
}

model::Circuit small_circuit(const std::string& rates = "", const std::string& quantities = "") {
    return test::circuit_of(
        "<battery id='G1'/><fuse id='F1' rating-a='10'/><lamp id='H1' rated-w='21'>" + rates +
            "</lamp><coupling id='X1' pins='2'/><splice id='J1'/><ground-point id='E1'/>",
        "<wire id='W1' from='G1.+' to='F1.1' ohm='0.01'/><wire id='W2' from='F1.2' to='X1.1a' ohm='0.01'/>"
        "<wire id='W3' from='X1.1b' to='H1.1' ohm='0.01'/><wire id='W4' from='H1.2' to='X1.2b' ohm='0.01'/>"
        "<wire id='W5' from='X1.2a' to='E1' ohm='0.01'/><wire id='W6' from='G1.-' to='E1' ohm='0.01'/>",
        quantities);
}

}  // namespace

TEST_CASE("The universe holds each sort of fault where it can happen and nowhere else") {
    const auto texts = texts_of(small_circuit());
    for (const char* there :
         {"discharged:G1", "high-resistance:G1.+", "blown:F1", "unplugged:F1", "open:H1", "open:H1.1",
          "backed-out:X1.1", "swapped:X1.1+X1.2", "wet:X1.1", "unplugged:X1", "open:E1", "high-resistance:E1",
          "open:W3", "short-to-ground:W3", "short-between:W3+W4"}) {
        INFO(there);
        CHECK(texts.contains(there));
    }
    for (const char* not_there :
         {"blown:H1", "open:J1", "unplugged:J1", "unplugged:E1", "short-between:W1+W6", "wet:G1.+",
          "swapped:F1.1+F1.2", "swapped:X1.2+X1.1"}) {
        INFO(not_there);
        CHECK_FALSE(texts.contains(not_there));
    }
    CHECK(std::ranges::none_of(texts, [](const std::string& text) { return text.starts_with("chafed:"); }));
}

TEST_CASE("Wires chafe where the circuit knows vibration") {
    const auto texts = texts_of(
        small_circuit("", "<quantity id='vibration' title='Vibration' unit='g' min='0' max='2' value='0'/>"));
    CHECK(texts.contains("chafed:W3=open@vibration:1..2"));
}

TEST_CASE("The author's rate for a part replaces the kind's, and none takes the fault away") {
    CHECK(rate_of(small_circuit("<fault-rate kind='open' rate='50'/>"), "open:H1") == 50);
    CHECK_FALSE(texts_of(small_circuit("<fault-rate kind='short' rate='0'/>")).contains("short:H1"));
}

TEST_CASE("Every fault of every circuit we ship can be put in and solved, and reads back as written") {
    for (const char* name : {"horn", "rear-window-heater", "interior-light"}) {
        const auto circuit = test::circuit_file(std::string("circuits/") + name + ".circuit.xml");
        const model::OperatingState& state = circuit.states.back();
        for (const diagnosis::PossibleFault& each : diagnosis::fault_universe(circuit)) {
            INFO(name << ", " << each.fault.text);
            const auto again = network::parse_fault(circuit, each.fault.text);
            REQUIRE(again);
            CHECK(again->text == each.fault.text);
            network::Situation situation;
            situation.faults = {each.fault};
            CHECK(simulation::settle(circuit, situation, state.steps));
        }
    }
}
