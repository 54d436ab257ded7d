#include <catch2/catch.hpp>

#include <cmath>

#include "tests/support/circuit_text.h"

using namespace halfsplit;
using test::amperes_in;
using test::volts_at;

namespace {

simulation::Settled in_state(const model::Circuit& circuit, const std::string& state,
                             const std::vector<std::string>& faults = {}) {
    const model::OperatingState* found = circuit.find_state(state);
    REQUIRE(found != nullptr);
    network::Situation situation;
    situation.faults = test::faults_of(circuit, faults);
    auto settled = simulation::settle(circuit, situation, found->steps);
    REQUIRE(settled);
    return std::move(*settled);
}

model::Circuit shipped(const std::string& name) {
    return test::circuit_file("circuits/" + name + ".circuit.xml");
}

double across(const simulation::Settled& settled, const std::string& from, const std::string& to) {
    return volts_at(settled, from) - volts_at(settled, to);
}

}  // namespace

// common practice (drop limits as workshop manuals give them: 0.2 V a wire, 0.3 V a switch or relay contact,
// 0.1 V a ground, more than 1 V in all is a fault), for the loads of sound circuits at work.
TEST_CASE("Sound circuits keep within the drops that workshops allow") {
    struct Load {
        const char* circuit;
        const char* state;
        const char* plus;
        const char* minus;
        const char* ground;
    };
    for (const Load& load : {Load{"rear-window-heater", "heating", "E20.1", "E20.2", "E8"},
                             Load{"horn", "sounding", "P3.1", "P3.2", "E3"},
                             Load{"radiator-fan", "full-speed", "M2.1", "M2.2", ""}}) {
        const auto circuit = shipped(load.circuit);
        const auto settled = in_state(circuit, load.state);
        INFO(load.circuit);
        CHECK(across(settled, "G1.+", load.plus) < 0.7);
        CHECK(across(settled, load.minus, "G1.-") < 0.3);
        if (*load.ground != '\0') CHECK(std::abs(volts_at(settled, load.ground)) < 0.1);
    }
    for (const char* name : {"rear-window-heater", "horn", "exterior-lights", "blower",
                             "brake-lights-trailer", "interior-light", "radiator-fan", "power-window"}) {
        const auto circuit = shipped(name);
        for (const model::OperatingState& state : circuit.states) {
            const auto settled = in_state(circuit, state.id);
            for (std::size_t i = 0; i < settled.network.branches.size(); ++i) {
                const network::NetworkBranch& branch = settled.network.branches[i];
                if (branch.source != network::BranchSource::wire) continue;
                const double drop_v = settled.point.potential_at(branch.electrical.from) -
                                      settled.point.potential_at(branch.electrical.to);
                INFO(name << ", " << state.id << ", " << branch.name);
                CHECK(std::abs(drop_v) < 0.4);  // a long heater feed takes two of the wires the rule means
            }
        }
    }
}

// common practice: blade fuses are loaded to no more than about three quarters of their rating for good; a
// motor blocked on purpose is the exception a breaker is there for.
TEST_CASE("No fuse of a sound circuit carries more than its rating") {
    for (const char* name : {"rear-window-heater", "horn", "exterior-lights", "blower",
                             "brake-lights-trailer", "interior-light", "radiator-fan"}) {
        const auto circuit = shipped(name);
        for (const model::OperatingState& state : circuit.states) {
            const auto settled = in_state(circuit, state.id);
            for (const model::Part& part : circuit.parts) {
                if (part.kind->element != "fuse") continue;
                INFO(name << ", " << state.id << ", " << part.id);
                CHECK(std::abs(amperes_in(settled, part.id + ".link")) < 0.8 * part.numbers.front());
            }
        }
    }
}

// common practice: charging voltage 13.7 to 14.7 V with the engine running.
TEST_CASE("With the engine running the battery stands at charging voltage") {
    const auto circuit = shipped("rear-window-heater");
    const double battery_v = [&] {
        const auto settled = in_state(circuit, "heating");
        return across(settled, "G1.+", "G1.-");
    }();
    CHECK(battery_v > 13.7);
    CHECK(battery_v < 14.7);
}

// The classic: the lamps of one unit share a ground; when it is lost, current of the lit lamp goes on through
// lamps that are off, which glow, and the tell-tale of the main beam with them (common practice, in every
// book on lighting faults).
TEST_CASE("A lost shared ground feeds other lamps backwards") {
    const auto circuit = shipped("exterior-lights");
    const auto sound = in_state(circuit, "dip");
    const auto lost = in_state(circuit, "dip", {"open:E3"});
    CHECK(std::abs(across(sound, "E11.a", "E11.31")) < 0.01);  // main beam is off
    CHECK(across(lost, "E11.31", "E11.a") > 2);                // and now carries current from its ground side
    CHECK(across(lost, "E11.b", "E11.31") < 0.6 * across(sound, "E11.b", "E11.31"));
    CHECK(across(lost, "E12.a", "E12.31") > 2);  // the right main beam glows, off as it is
    CHECK(across(lost, "P5.1", "P5.2") > 2);     // and so does the tell-tale
    const auto corroded = in_state(circuit, "dip", {"high-resistance:E3=2"});
    CHECK(volts_at(corroded, "E11.31") > 1);
    CHECK(across(corroded, "E11.b", "E11.31") < across(sound, "E11.b", "E11.31") - 1);
}

TEST_CASE("A window runs either way by reversing its motor, and its breaker opens on a stop that lasts") {
    const auto circuit = shipped("power-window");
    double up_v = 0;
    double down_v = 0;
    for (const model::OperatingState& state : circuit.states) {
        const auto settled = in_state(circuit, state.id);
        for (const model::Part& part : circuit.parts) {
            if (part.kind->element != "motor") continue;
            const double volts = across(settled, part.id + ".1", part.id + ".2");
            up_v = std::max(up_v, volts);
            down_v = std::min(down_v, volts);
        }
    }
    CHECK(up_v > 11);
    CHECK(down_v < -11);
}
