#include "engine/practice/session/rhythm.h"

#include <catch2/catch.hpp>

#include "tests/practice/vehicles.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using test::doing;
using test::found;
using test::vehicle_with;

namespace {

const model::Circuit& indicators() {
    static const model::Circuit circuit = test::circuit_file("circuits/turn-signals.circuit.xml");
    return circuit;
}

const model::Circuit& wipers() {
    static const model::Circuit circuit = test::circuit_file("circuits/wipers.circuit.xml");
    return circuit;
}

std::string seen(ServicedVehicle& vehicle, const std::string& part) {
    return found(doing(vehicle, "look " + part).observed, part);
}

}  // namespace

// UN Regulation No. 48, 6.5.9.1: 90 +- 30 times a minute; the circuit's flasher is made for 90.
TEST_CASE("Lamps of a direction indicator flash, whenever one looks") {
    ServicedVehicle vehicle = vehicle_with(indicators(), {}, "indicators-ready");
    CHECK(found(doing(vehicle, "set S46=left").observed, "E50") == "flashes, 90 times a minute");
    for (const char* waiting : {"wait 0.1", "wait 0.17", "wait 0.23", "wait 0.31", "wait 0.4"}) {
        doing(vehicle, waiting);
        CHECK(seen(vehicle, "E50") == "flashes, 90 times a minute");
        CHECK(seen(vehicle, "P14") == "flashes, 90 times a minute");
        CHECK(seen(vehicle, "E52") == "dark");
    }
    CHECK(found(doing(vehicle, "set S46=off").observed, "E50") == "dark");
}

// UN Regulation No. 48, 6.5.8: the failure of an indicator may show in a marked change of frequency; twice
// the rate is common practice.
TEST_CASE("With a dead bulb the others of its side flash quickly") {
    ServicedVehicle vehicle = vehicle_with(indicators(), {"open:E54"}, "indicators-left");
    CHECK(seen(vehicle, "E50") == "flashes quickly, 180 times a minute");
    CHECK(seen(vehicle, "E54") == "dark");
    const auto repaired = doing(vehicle, "replace E54").observed;
    CHECK(found(repaired, "E54") == "flashes, 90 times a minute");
    CHECK(found(repaired, "E50") == "flashes, 90 times a minute");
}

// By hand from circuits/wipers.scxml: driven for 0.6 s, on to its park position, 4.4 s of waiting.
TEST_CASE("Wipers on interval run on and off, in the pause as well as at work") {
    ServicedVehicle vehicle = vehicle_with(wipers(), {}, "wipers-interval");
    for (const char* waiting : {"wait 1", "wait 1.3", "wait 1.7"}) {
        doing(vehicle, waiting);
        CHECK(seen(vehicle, "M19").find("runs on and off") == 0);
        CHECK(seen(vehicle, "M20") == "moves");
        CHECK(seen(vehicle, "M21") == "still");
    }
    doing(vehicle, "state wipers-slow");
    CHECK(seen(vehicle, "M19") == "runs");
}

TEST_CASE("To look changes nothing, however often") {
    ServicedVehicle one = vehicle_with(indicators(), {}, "indicators-left");
    ServicedVehicle other = one;
    for (int i = 0; i < 3; ++i) doing(one, "look");
    CHECK(doing(one, "record E50.1 1.5").observed == doing(other, "record E50.1 1.5").observed);
    CHECK(doing(one, "look").observed == doing(other, "look").observed);
}

TEST_CASE("A flasher is heard from where it is for as long as it goes on") {
    ServicedVehicle vehicle = vehicle_with(indicators(), {}, "indicators-ready");
    const std::string box = "Fuse and relay box, left of the steering column";
    CHECK(found(doing(vehicle, "state indicators-left").observed, box) == "a relay clicks again and again");
    CHECK(found(doing(vehicle, "look").observed, box) == "a relay clicks again and again");
    doing(vehicle, "set S46=off");
    CHECK(found(doing(vehicle, "look").observed, box).empty());
}

// A second for two rounds is 120 a minute, and so on.
TEST_CASE("What comes and goes is told in words that say what it is") {
    using diagnosis::Shows;
    CHECK(rhythm_text(Shows::filament, {true, true, 118}) == "flashes, 120 times a minute");
    CHECK(rhythm_text(Shows::string, {true, true, 30}) == "flashes slowly, 30 times a minute");
    CHECK(rhythm_text(Shows::string, {true, true, 0}) == "flashes");
    CHECK(rhythm_text(Shows::filament, {true, false, 240}) == "flickers, 240 times a minute");
    CHECK(rhythm_text(Shows::sound, {true, true, 60}) == "sounds on and off, 60 times a minute");
    CHECK(rhythm_text(Shows::plunger, {true, true, 0}) == "pulls and lets go");
}
