#include "engine/practice/session/serviced_vehicle.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/practice/vehicles.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using test::doing;
using test::found;
using test::refusal;
using test::vehicle_with;

namespace {

const model::Circuit& horn() {
    static const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    return circuit;
}

std::string horn_sign(ServicedVehicle& vehicle) {
    return found(doing(vehicle, "look P3").observed, "P3");
}

double volts(ServicedVehicle& vehicle, const std::string& at) {
    const std::vector<Observed> observed = doing(vehicle, "measure voltmeter " + at).observed;
    // A voltmeter shows millivolts below half a volt.
    return observed.front().what == "mV" ? observed.front().value / 1000 : observed.front().value;
}

}  // namespace

// The horn circuit by hand: battery, F7, the relay's contact, X3.1, horns, X3.2, E3.
TEST_CASE("A voltmeter in somebody's hand reads what the solved network has") {
    ServicedVehicle vehicle = vehicle_with(horn(), {}, "sounding");
    const auto settled = simulation::settle(horn(), {}, horn().find_state("sounding")->steps);
    REQUIRE(settled);
    const double expected = settled->point.potential_at(settled->network.point_nodes.find("P3.1")->second);
    CHECK(volts(vehicle, "P3.1") == Approx(expected).margin(0.02));
    CHECK(horn_sign(vehicle) == "sounds");
}

TEST_CASE("A contact that is open is found by hand and mended") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"open:X3.1"}, "sounding");
    CHECK(horn_sign(vehicle) == "silent");
    CHECK(volts(vehicle, "X3.1a") > 12);
    CHECK(volts(vehicle, "X3.1b") < 0.1);
    CHECK(found(doing(vehicle, "inspect X3.1").observed, "X3.1").find("not in order") == 0);
    CHECK(found(doing(vehicle, "inspect X3.2").observed, "X3.2").find("nothing wrong") == 0);
    CHECK(found(doing(vehicle, "mend X3.1").observed, "P3") == "sounds");
    CHECK(vehicle.faults().empty());
    CHECK(vehicle.is_put_together());
}

TEST_CASE("Who has a plug in hand sees its contacts too") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"open:X3.1"}, "sounding");
    CHECK(found(doing(vehicle, "inspect X3").observed, "X3").find("not in order (open:X3.1)") == 0);
    CHECK(found(doing(vehicle, "inspect K2").observed, "K2").find("nothing wrong") == 0);
}

TEST_CASE("A relay with a torn coil does not click, and its horns are silent") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"open:K2.coil"}, "ready");
    for (const Observed& each : doing(vehicle, "state sounding").observed) CHECK(each.what != "clicks");
    CHECK(horn_sign(vehicle) == "silent");
    CHECK(found(doing(vehicle, "replace K2").observed, "P3") == "sounds");
}

TEST_CASE("A jumper lead past the open contact makes the horn sound") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"open:X3.1"}, "sounding");
    CHECK(found(doing(vehicle, "bridge X3.1a X3.1b").observed, "P3") == "sounds");
    CHECK_FALSE(vehicle.is_put_together());
    CHECK(found(doing(vehicle, "unbridge").observed, "P3") == "silent");
    CHECK(refusal(vehicle, "unbridge") == "no jumper lead is on");
}

// A 10 A fuse cannot carry what a battery gives into a lead of 30 milliohm.
TEST_CASE("A jumper lead from supply to ground loses its fuse") {
    ServicedVehicle vehicle = vehicle_with(horn(), {}, "sounding");
    const Effect effect = doing(vehicle, "bridge F7.1 E5");
    CHECK_FALSE(effect.mishaps.empty());
    CHECK(vehicle.is_put_together());
}

TEST_CASE("A fuse that is pulled makes its loads dead, pushed in again it does not") {
    ServicedVehicle vehicle = vehicle_with(horn(), {}, "sounding");
    CHECK(found(doing(vehicle, "pull F7").observed, "P3") == "silent");
    CHECK(refusal(vehicle, "pull F7") == "F7 is out already");
    CHECK(found(doing(vehicle, "push F7").observed, "P3") == "sounds");
}

TEST_CASE("A new fuse blows again while the short is there, and holds when it is mended") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"short-to-ground:W203"}, "sounding");
    CHECK(found(doing(vehicle, "look F7").observed, "F7") == "blown");
    doing(vehicle, "fit F7 15");
    CHECK(found(doing(vehicle, "look F7").observed, "F7") == "blown");
    doing(vehicle, "mend W203");
    CHECK(found(doing(vehicle, "look F7").observed, "F7") == "blown");
    doing(vehicle, "fit F7 15");
    CHECK(found(doing(vehicle, "look F7").observed, "F7") == "whole");
    CHECK(horn_sign(vehicle) == "sounds");
    CHECK(vehicle.faults().empty());
}

TEST_CASE("A blown fuse stays blown in whatever state the vehicle is brought to") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"short-to-ground:W203"}, "sounding");
    doing(vehicle, "mend W203");
    doing(vehicle, "state key-off");
    CHECK(found(doing(vehicle, "look F7").observed, "F7") == "blown");
    doing(vehicle, "state sounding");
    CHECK(horn_sign(vehicle) == "silent");
}

TEST_CASE("A fuse of another rating is another fault until the right one is in") {
    ServicedVehicle vehicle = vehicle_with(horn(), {"blown:F7"}, "sounding");
    doing(vehicle, "fit F7 30");
    REQUIRE(vehicle.faults().size() == 1);
    CHECK(vehicle.faults().front().text == "wrong-rating:F7=30");
    CHECK(horn_sign(vehicle) == "sounds");
    doing(vehicle, "fit F7 15");
    CHECK(vehicle.faults().empty());
}

TEST_CASE("A button is pressed and let go, and what happens meanwhile is heard") {
    ServicedVehicle vehicle = vehicle_with(horn(), {}, "ready");
    const std::vector<Observed> observed = doing(vehicle, "press S5=pressed").observed;
    std::vector<std::string> signs;
    for (const Observed& each : observed)
        if (each.about == "P3") signs.push_back(each.shown);
    CHECK(signs == std::vector<std::string>{"sounds", "silent"});
    CHECK(std::ranges::count(observed, "clicks", &Observed::what) == 2);
    CHECK(horn_sign(vehicle) == "silent");
}

TEST_CASE("The fault of a relay goes with it to another socket") {
    const model::Circuit lights = test::circuit_file("circuits/radiator-fan.circuit.xml");
    ServicedVehicle vehicle = vehicle_with(lights, {"open:K7.coil"}, "half-speed");
    doing(vehicle, "swap K7 K8");
    REQUIRE(vehicle.faults().size() == 1);
    CHECK(vehicle.faults().front().text == "open:K8.coil");
    CHECK(refusal(vehicle, "swap K7 K7") == "two relays are expected");
}

TEST_CASE("A quantity changes at once or gradually, within what it can be") {
    const model::Circuit step = test::circuit_file("circuits/entry-step.circuit.xml");
    ServicedVehicle vehicle = vehicle_with(step, {}, "step-door-open");
    CHECK(doing(vehicle, "set speed=50 over 5").seconds == Approx(6));
    CHECK(refusal(vehicle, "set speed=500").find("0 to 130 km/h") != std::string::npos);
    CHECK(refusal(vehicle, "set spee=50").find("did you mean speed") != std::string::npos);
    CHECK(refusal(vehicle, "set M8=50").find("nothing a hand can set") != std::string::npos);
}

TEST_CASE("Time goes by: a motor is seen to turn and to stop") {
    const model::Circuit step = test::circuit_file("circuits/entry-step.circuit.xml");
    ServicedVehicle vehicle = vehicle_with(step, {}, "step-moving");
    CHECK(found(doing(vehicle, "look M7").observed, "M7") == "runs");
    const std::vector<Observed> waited = doing(vehicle, "wait 10").observed;
    CHECK(std::ranges::any_of(
        waited, [](const Observed& each) { return each.about == "M7" && each.what == "still"; }));
    CHECK(found(waited, "M8") == "stands at 100 %");
}

// An indicator goes to and fro between 0 and about 12 V at 60 to 120 a minute (from memory).
TEST_CASE("A voltmeter on an indicator shows both ends of what it does") {
    const model::Circuit signals = test::circuit_file("circuits/turn-signals.circuit.xml");
    ServicedVehicle vehicle = vehicle_with(signals, {}, "indicators-left");
    const Effect effect = doing(vehicle, "measure voltmeter E50.1");
    CHECK(effect.observed.front().shown.find("to and fro") != std::string::npos);
    CHECK(effect.observed.front().value > 11);
}

TEST_CASE("A recorder keeps the extremes of what it watched") {
    const model::Circuit signals = test::circuit_file("circuits/turn-signals.circuit.xml");
    ServicedVehicle vehicle = vehicle_with(signals, {}, "indicators-left");
    const std::vector<Observed> observed = doing(vehicle, "record E50.1 3").observed;
    const auto least = std::ranges::find(observed, "recorder E50.1 least", &Observed::about);
    const auto most = std::ranges::find(observed, "recorder E50.1 most", &Observed::about);
    REQUIRE(least != observed.end());
    REQUIRE(most != observed.end());
    CHECK(least->value < 1);
    CHECK(most->value > 11);
}

TEST_CASE("What cannot be done changes nothing and says why") {
    ServicedVehicle vehicle = vehicle_with(horn(), {}, "sounding");
    const auto before = vehicle.settled().point.potential_v;
    CHECK(refusal(vehicle, "state soundin").find("did you mean sounding") != std::string::npos);
    CHECK(refusal(vehicle, "measure voltmeter K2.99").find("no point is called") != std::string::npos);
    CHECK(refusal(vehicle, "mend K2").find("replace it") != std::string::npos);
    CHECK(refusal(vehicle, "replace W203").find("mended") != std::string::npos);
    CHECK(refusal(vehicle, "unplug J2").find("no plug") != std::string::npos);
    CHECK(refusal(vehicle, "fit F7 much").find("no rating") != std::string::npos);
    CHECK(refusal(vehicle, "wait 100000").find("seconds from 0 to 600") != std::string::npos);
    CHECK(vehicle.settled().point.potential_v == before);
}

TEST_CASE("The same actions lead to the same answers to the last bit") {
    const model::Circuit step = test::circuit_file("circuits/entry-step.circuit.xml");
    const std::vector<std::string> script{
        "state step-door-open", "measure voltmeter M7.1", "set speed=20", "wait 5",
        "record M7.1,M7.2 2",   "measure test-lamp M7.1", "unplug M7",    "plug M7"};
    std::vector<std::vector<Observed>> answers[2];
    for (auto& each : answers) {
        ServicedVehicle vehicle = vehicle_with(step, {"high-resistance:W1003=0.5"}, "step-parked");
        for (const std::string& line : script) each.push_back(doing(vehicle, line).observed);
    }
    CHECK((answers[0] == answers[1]));
}

// W528 of the trailer's wiring goes from one place to another; what chafed copper looks like is common
// practice.
TEST_CASE("A chafed wire in hand shows where it rubbed through, a unit on the bench what it draws") {
    const model::Circuit trailer = test::circuit_file("circuits/brake-lights-trailer.circuit.xml");
    ServicedVehicle vehicle =
        vehicle_with(trailer, {"chafed:W528=open@vibration:50..100"}, trailer.states.front().id);
    const std::string seen = found(doing(vehicle, "inspect W528").observed, "W528");
    INFO(seen);
    CHECK(seen.find("rubbed through on the way from \"") != std::string::npos);
    CHECK(seen.find("strands that are left part") != std::string::npos);
    ServicedVehicle shorted =
        vehicle_with(trailer, {"chafed:W528=short@vibration:50..100"}, trailer.states.front().id);
    CHECK(
        found(doing(shorted, "inspect W528").observed, "W528").find("bare copper shows, and where it lay") !=
        std::string::npos);
    const model::Circuit drain = test::circuit_file("circuits/parasitic-drain.circuit.xml");
    const auto unit = std::ranges::find_if(
        drain.parts, [](const model::Part& part) { return part.kind->element == "control-unit"; });
    REQUIRE(unit != drain.parts.end());
    ServicedVehicle draining =
        vehicle_with(drain, {"quiescent-drain:" + unit->id + "=240"}, drain.states.front().id);
    CHECK(found(doing(draining, "inspect " + unit->id).observed, unit->id).find("drawing 240 mA") !=
          std::string::npos);
}
