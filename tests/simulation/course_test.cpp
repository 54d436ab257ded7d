#include "engine/simulation/course.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "tests/support/circuit_text.h"

using namespace halfsplit;
using simulation::Course;
using simulation::CourseEvent;
using simulation::TimedSet;

namespace {

const std::string kSupply =
    "<battery id='G1' open-circuit-v='12' internal-ohm='0.001' plug='none'/><ground-point id='E1' "
    "ohm='0.0001'/>";
const std::string kGround = "<wire id='W0' from='G1.-' to='E1' ohm='0.0001'/>";

std::string on_off(const std::string& id) {
    return "<switch id='" + id +
           "' switch-ohm='0.0001' plug='none'><pin id='1'/><pin id='2'/><position id='off'/><position "
           "id='on'><contact from='1' to='2'/></position></switch>";
}

std::string wire(int number, const std::string& from, const std::string& to) {
    return "<wire id='W" + std::to_string(number) + "' from='" + from + "' to='" + to + "' ohm='0.0001'/>";
}

std::vector<CourseEvent> events_until(const model::Circuit& circuit, std::vector<TimedSet> sets,
                                      double until_s, const std::vector<std::string>& faults = {}) {
    auto course = Course::begin(circuit, test::settled(circuit, {}, faults), std::move(sets));
    if (!course) FAIL(course.error().front().message);
    const auto run = course->run_until(until_s);
    if (!run) FAIL(run.error().front().message);
    return course->take_events();
}

/// When the part came to that, for the n-th time from 0; -1 if it did not.
double time_of(const std::vector<CourseEvent>& events, const std::string& part, const std::string& what,
               int n = 0) {
    for (const CourseEvent& event : events)
        if (event.subject == part && event.what == what && n-- == 0) return event.at_s;
    return -1;
}

model::Circuit relay_circuit(const std::string& relay = "<relay id='K1' plug='none' suppression='none'/>") {
    return test::circuit_of(
        kSupply + on_off("S1") + relay,
        kGround + wire(1, "G1.+", "S1.1") + wire(2, "S1.2", "K1.86") + wire(3, "K1.85", "E1"));
}

model::Circuit window_circuit() {
    return test::circuit_of(
        kSupply + on_off("S1") +
            "<motor id='M1' plug='none' armature-ohm='1' no-load-a='1' load-a='2' spin-up-ms='50'/>"
            "<mechanism id='M2' motor='M1' travel-s='3' start-percent='0' obstacle='hand'/>"
            "<switch id='S2' plug='none' operated-by='M2' operated-at='end' operated-percent='10'><pin "
            "id='1'/>"
            "<pin id='2'/><position id='away'/><position id='there'><contact from='1' "
            "to='2'/></position></switch>",
        kGround + wire(1, "G1.+", "S1.1") + wire(2, "S1.2", "M1.1") + wire(3, "M1.2", "E1"),
        "<quantity id='hand' title='Hand in the way' unit='%' min='0' max='100' value='100'/>");
}

}  // namespace

// The coil's current rises as (1 - e^(-t R / L)) (Kuphaldt, Lessons in Electric Circuits I, ch. 16); with 85
// ohm and 300 mH at 12 V it reaches what 7 V would drive after 3.10 ms, and the contact follows 10 ms later.
TEST_CASE("A relay pulls in when its coil's current has risen, and its delay is over") {
    const auto events = events_until(relay_circuit(), {{0.1, "S1", "on", 0}, {0.3, "S1", "off", 0}}, 0.5);
    const double rise_s = -0.3 / 85 * std::log(1 - 7.0 / 12);
    CHECK(time_of(events, "K1", "energised") == Approx(0.1 + rise_s + 0.010).margin(2e-4));
    // Cut off, the current is gone in no time: only the delay of 6 ms is left.
    CHECK(time_of(events, "K1", "at-rest") == Approx(0.3 + 0.006).margin(4e-4));
}

TEST_CASE("A sluggish relay is late by the fault's value") {
    const auto sound = events_until(relay_circuit(), {{0.1, "S1", "on", 0}}, 1);
    const auto late = events_until(relay_circuit(), {{0.1, "S1", "on", 0}}, 1, {"sluggish:K1=200"});
    CHECK(time_of(late, "K1", "energised") - time_of(sound, "K1", "energised") == Approx(0.2).margin(3e-4));
}

// While the coil's suppression diode carries the current on, it falls by e^(-t R / L) and more slowly lets
// go.
TEST_CASE("A relay with a suppression diode lets go later than one without") {
    const std::vector<TimedSet> sets{{0.1, "S1", "on", 0}, {0.3, "S1", "off", 0}};
    const auto plain = events_until(relay_circuit(), sets, 0.5);
    const auto diode =
        events_until(relay_circuit("<relay id='K1' plug='none' suppression='diode'/>"), sets, 0.5);
    // From 12 V to 2.5 V, the diode's 0.7 V helping a little: at most L / R ln(12 / 2.5) = 5.5 ms more.
    const double later_s = time_of(diode, "K1", "at-rest") - time_of(plain, "K1", "at-rest");
    CHECK(later_s > 0.004);
    CHECK(later_s < 0.0056);
}

// By hand: full speed is the back-EMF in ordinary work, 12 V less 1 ohm times 2 A; the motor gets there by
// e^(-t / T), with T = L R C of the equivalent circuit, so the way is the steady one less that of the time T.
TEST_CASE("A mechanism takes its travel time, moves its switch on the way and blocks its motor at the end") {
    const auto events = events_until(window_circuit(), {{1, "S1", "on", 0}}, 6);
    const double start_s = time_of(events, "M1", "turns forwards");
    CHECK(start_s == Approx(1).margin(1e-6));
    const double stop_s = time_of(events, "M1", "stalled");
    const double damping = 1 + 1.0 * (2 - 1) / 10;  // R times the slope of the load current over the back-EMF
    const double time_constant_s = 0.05 / damping;
    CHECK(stop_s - start_s == Approx(3 + time_constant_s).epsilon(2e-3));
    CHECK(time_of(events, "S2", "there") - start_s == Approx(0.9 * 3 + time_constant_s).epsilon(2e-3));
}

TEST_CASE("A jammed mechanism blocks its motor at once, a stiff one slows it") {
    const auto jammed = events_until(window_circuit(), {{1, "S1", "on", 0}}, 6, {"seized:M2"});
    CHECK(time_of(jammed, "M1", "turns forwards") == -1);
    CHECK(time_of(jammed, "S2", "there") == -1);
    const auto stiff = events_until(window_circuit(), {{1, "S1", "on", 0}}, 20, {"stiff:M2=2"});
    // Twice the load current, 4 A over 1 ohm: 8 V of back-EMF instead of 10 V.
    CHECK(time_of(stiff, "M1", "stalled") - 1 == Approx(3 * 10.0 / 8).epsilon(0.02));
}

// A latch holds until its solenoid pulls (common practice): the motor pulls in vain before, and the door goes
// on by itself once it has left, whatever the latch does then.
TEST_CASE("What is latched at an end leaves it only while the latch is pulled") {
    const auto circuit = test::circuit_of(
        kSupply + on_off("S1") + on_off("S3") +
            "<motor id='M1' plug='none' armature-ohm='1' no-load-a='1' load-a='2' spin-up-ms='50'/>"
            "<mechanism id='M2' motor='M1' travel-s='3' start-percent='0' latch='Y1' latched-at='start'/>"
            "<solenoid id='Y1' plug='none' coil-ohm='10'/>",
        kGround + wire(1, "G1.+", "S1.1") + wire(2, "S1.2", "M1.1") + wire(3, "M1.2", "E1") +
            wire(4, "G1.+", "S3.1") + wire(5, "S3.2", "Y1.1") + wire(6, "Y1.2", "E1"));
    const auto way = [&](const std::vector<TimedSet>& sets, double until_s) {
        auto course = Course::begin(circuit, test::settled(circuit), sets);
        REQUIRE(course);
        REQUIRE(course->run_until(until_s));
        return course->way_percent(0);
    };
    CHECK(way({{0.1, "S1", "on", 0}}, 5) == Approx(0).margin(1e-9));
    CHECK(way({{0.1, "S1", "on", 0}, {1, "S3", "on", 0}, {1.5, "S3", "off", 0}}, 5) ==
          Approx(100).margin(0.1));
    const auto events = events_until(circuit, {{0.1, "S1", "on", 0}, {1, "S3", "on", 0}}, 5);
    const double pulled_s = time_of(events, "Y1", "pulled");
    CHECK(pulled_s > 1);
    CHECK(time_of(events, "M1", "turns forwards", 1) == Approx(pulled_s).margin(1e-3));
}

TEST_CASE("Something in the way stops a mechanism there") {
    const auto circuit = window_circuit();
    auto course = Course::begin(circuit, test::settled(circuit, {"hand=40"}), {{1, "S1", "on", 0}});
    REQUIRE(course);
    REQUIRE(course->run_until(8));
    CHECK(course->way_percent(0) == Approx(40).margin(0.1));
    CHECK(course->conditions()[static_cast<std::size_t>(circuit.find_pin("M1.1")->part)] == 1);
}

// Common practice: 60 to 120 flashes a minute, and twice the rate with a bulb out.
TEST_CASE("A flasher keeps its rate, and doubles it when a bulb is missing") {
    const auto circuit = test::circuit_of(
        kSupply + on_off("S1") +
            "<flasher id='K1' plug='none' rate-per-min='90'/><lamp id='E2' plug='none' rated-w='21'/><lamp "
            "id='E3' "
            "plug='none' rated-w='21'/>",
        kGround + wire(1, "G1.+", "K1.49") + wire(2, "K1.49a", "S1.1") + wire(3, "S1.2", "E2.1") +
            wire(4, "S1.2", "E3.1") + wire(5, "E2.2", "E1") + wire(6, "E3.2", "E1") + wire(7, "K1.31", "E1"));
    const auto period_s = [&](const std::vector<std::string>& faults) {
        const auto events = events_until(circuit, {{0.5, "S1", "on", 0}}, 10, faults);
        return time_of(events, "K1", "open", 6) - time_of(events, "K1", "open", 5);
    };
    CHECK(period_s({}) == Approx(60.0 / 90).epsilon(1e-3));
    CHECK(period_s({"open:E2"}) == Approx(30.0 / 90).epsilon(1e-3));
    CHECK(events_until(circuit, {}, 10).empty());
}

TEST_CASE("The same course gives the same bits, in one go or stopped, saved and resumed") {
    const auto circuit = test::circuit_file("circuits/exterior-lights.circuit.xml");
    const std::vector<TimedSet> sets{{0.2, "S1", "run", 0}, {0.4, "S3", "head", 0}, {1.5, "S4", "main", 0}};
    const auto run = [&](const std::vector<double>& stops_s, bool resumes) {
        auto course = Course::begin(circuit, test::settled(circuit), sets);
        REQUIRE(course);
        std::vector<double> potentials;
        for (const double stop_s : stops_s) {
            REQUIRE(course->run_until(stop_s));
            if (!resumes) continue;
            const simulation::CourseState saved = course->state();
            course = Course::resume(circuit, saved);
            REQUIRE(course);
            REQUIRE(course->run_until(stop_s));
        }
        for (int node = 0; node < course->network().node_count; ++node)
            potentials.push_back(course->potential_v(node));
        return potentials;
    };
    const auto whole = run({2.013}, false);
    CHECK(whole == run({2.013}, false));
    CHECK(whole == run({0.401, 1.0, 1.5003, 2.013}, false));
    CHECK(whole == run({0.401, 1.0, 1.5003, 2.013}, true));
}

TEST_CASE("What is to be set is checked before anything runs") {
    const auto circuit = relay_circuit();
    const auto refused = [&](TimedSet set) {
        const auto course = Course::begin(circuit, test::settled(circuit), {std::move(set)});
        REQUIRE_FALSE(course);
        return course.error().front().message;
    };
    CHECK_THAT(refused({1, "S2", "on", 0}), Catch::Contains("did you mean S1"));
    CHECK_THAT(refused({1, "S1", "onn", 0}), Catch::Contains("expected off or on"));
    CHECK_THAT(refused({1, "S1", "on", 2}), Catch::Contains("cannot change gradually"));
    CHECK_THAT(refused({-1, "S1", "on", 0}), Catch::Contains("0 s or later"));
}
