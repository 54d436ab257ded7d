#include <catch2/catch.hpp>

#include "engine/simulation/course.h"
#include "tests/support/circuit_text.h"

namespace halfsplit {

using simulation::Course;

namespace {

double volts_at(const Course& course, const char* point) {
    return course.potential_v(course.network().point_nodes.find(point)->second);
}

network::Fault fault(const model::Circuit& circuit, const char* text) {
    auto parsed = network::parse_fault(circuit, text);
    REQUIRE(parsed);
    return *parsed;
}

Course begun(const model::Circuit& circuit, const char* state) {
    const auto settled = simulation::settle(circuit, {}, circuit.find_state(state)->steps);
    REQUIRE(settled);
    auto course = Course::begin(circuit, *settled, {});
    REQUIRE(course);
    return std::move(*course);
}

}  // namespace

TEST_CASE("A fault that holds a part in a condition comes and goes while time runs") {
    const auto circuit = test::circuit_file("circuits/horn.circuit.xml");
    Course course = begun(circuit, "ready");
    REQUIRE(volts_at(course, "F7.2") > 12);
    network::Situation situation = course.state().situation;
    situation.faults.push_back(fault(circuit, "blown:F7"));
    REQUIRE(course.change(situation));
    REQUIRE(course.run_until(1));
    // Nothing feeds what lies behind an open fuse.
    CHECK(volts_at(course, "F7.2") < 0.1);
    situation = course.state().situation;
    situation.faults.clear();
    REQUIRE(course.change(situation));
    REQUIRE(course.run_until(2));
    CHECK(volts_at(course, "F7.2") > 12);
}

TEST_CASE("A relay that is stuck closed feeds its load at once, and lets go when it is mended") {
    const auto circuit = test::circuit_file("circuits/horn.circuit.xml");
    Course course = begun(circuit, "ready");
    network::Situation situation = course.state().situation;
    situation.faults.push_back(fault(circuit, "stuck-closed:K2"));
    REQUIRE(course.change(situation));
    REQUIRE(course.run_until(1));
    CHECK(volts_at(course, "K2.87") > 11);
    situation = course.state().situation;
    situation.faults.clear();
    REQUIRE(course.change(situation));
    REQUIRE(course.run_until(2));
    CHECK(volts_at(course, "K2.87") < 0.1);
}

TEST_CASE("A switch that another situation has elsewhere is set") {
    const auto circuit = test::circuit_file("circuits/horn.circuit.xml");
    Course course = begun(circuit, "ready");
    network::Situation situation = course.state().situation;
    situation.positions["S5"] = "pressed";
    REQUIRE(course.change(situation));
    REQUIRE(course.run_until(1));
    CHECK(volts_at(course, "K2.87") > 11);
}

}  // namespace halfsplit
