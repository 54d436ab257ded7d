#include <catch2/catch.hpp>

#include <algorithm>

#include "engine/simulation/course.h"
#include "engine/simulation/read_sets.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using simulation::Course;
using simulation::CourseEvent;

namespace {

/// The whole trip of circuits/entry-step.trip.txt with these faults, from the parked state.
std::vector<CourseEvent> trip(const std::vector<std::string>& faults) {
    const auto circuit = test::circuit_file("circuits/entry-step.circuit.xml");
    network::Situation situation;
    situation.faults = test::faults_of(circuit, faults);
    const auto parked = simulation::settle(circuit, situation, circuit.find_state("step-parked")->steps);
    if (!parked) FAIL(parked.error().front().message);
    auto sets = simulation::read_sets(test::file_text("circuits/entry-step.trip.txt"), "trip");
    REQUIRE(sets);
    auto course = Course::begin(circuit, *parked, std::move(*sets));
    if (!course) FAIL(course.error().front().message);
    const auto run = course->run_until(50);
    if (!run) FAIL(run.error().front().message);
    return course->take_events();
}

std::vector<double> times_of(const std::vector<CourseEvent>& events, const std::string& part,
                             const std::string& what) {
    std::vector<double> times_s;
    for (const CourseEvent& event : events)
        if (event.subject == part && event.what == what) times_s.push_back(event.at_s);
    return times_s;
}

}  // namespace

// The circuit says of itself: out when the door opens at a standstill, in above walking pace (6 km/h), given
// up when the limit switch is not reached within 8 s.
TEST_CASE("The entry step comes out at the door, and goes in as soon as the vehicle is faster than a walk") {
    const auto events = trip({});
    const auto out_s = times_of(events, "S22", "step-out");
    REQUIRE(out_s.size() == 2);
    CHECK(out_s[0] > 3);
    CHECK(out_s[0] < 3 + 8);
    CHECK(out_s[1] > 38);
    // 0 to 50 km/h in 8 s from 10 s on: 6 km/h after 0.96 s, and the unit has to count two pulses of it.
    const auto in_s = times_of(events, "M7", "turns backwards");
    REQUIRE(in_s.size() == 1);
    CHECK(in_s[0] > 10.96);
    CHECK(in_s[0] < 11.3);
    CHECK(times_of(events, "A1", "in state given-up").empty());
}

TEST_CASE("A seized step is given up after its protective time, and not tried again at the next door") {
    const auto events = trip({"seized:M8"});
    CHECK(times_of(events, "M7", "turns forwards").empty());
    const auto given_up_s = times_of(events, "A1", "in state given-up");
    REQUIRE(given_up_s.size() == 1);
    CHECK(given_up_s[0] == Approx(3 + 8).margin(2e-3));
    CHECK(times_of(events, "A1", "output 1 driven high").size() == 1);
    CHECK(times_of(events, "A1", "output 1 driven off").back() == Approx(given_up_s[0]).margin(1e-9));
}

TEST_CASE("With a corroded feed the step's motor breaks the unit's supply down and hardly moves") {
    const auto events = trip({"high-resistance:W1003=5"});
    CHECK(times_of(events, "S22", "step-out").empty());
    CHECK(times_of(events, "M7", "turns forwards").size() > 3);
}

TEST_CASE("A unit without supply drives nothing, and starts anew when it is back") {
    const auto circuit = test::circuit_file("circuits/entry-step.circuit.xml");
    const auto parked = simulation::settle(circuit, {}, circuit.find_state("step-door-open")->steps);
    REQUIRE(parked);
    auto course = Course::begin(circuit, *parked, {});
    REQUIRE(course);
    network::Situation pulled = course->state().situation;
    pulled.pulled.insert("F26");
    REQUIRE(course->change(pulled));
    REQUIRE(course->run_until(1));
    const auto unit = static_cast<std::size_t>(circuit.find_pin("A1.30")->part);
    CHECK(circuit.parts[unit].positions[static_cast<std::size_t>(course->conditions()[unit])].id ==
          "unpowered");
    for (const network::NetworkDriver& driver : course->network().drivers)
        CHECK(course->conditions()[static_cast<std::size_t>(driver.slot)] == 0);
    pulled.pulled.clear();
    REQUIRE(course->change(pulled));
    (void)course->take_events();
    REQUIRE(course->run_until(2));
    const auto events = course->take_events();
    CHECK(times_of(events, "A1", "powered").size() == 1);
    CHECK(std::ranges::any_of(events, [](const CourseEvent& event) {
        return event.subject == "A1" && event.what.starts_with("in state");
    }));
}
