#include <catch2/catch.hpp>

#include "engine/practice/session/toll.h"
#include "tests/practice/vehicles.h"

using namespace halfsplit;
using namespace halfsplit::practice;
using test::doing;
using test::found;
using test::refusal;
using test::vehicle_with;

namespace {

const model::Circuit& signals() {
    static const model::Circuit circuit = test::circuit_file("circuits/turn-signals.circuit.xml");
    return circuit;
}

const model::Circuit& horns() {
    static const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    return circuit;
}

std::vector<std::string> names_seen(ServicedVehicle& vehicle, const std::string& text) {
    std::vector<std::string> names;
    for (const Observed& each : doing(vehicle, text).observed) names.push_back(each.about);
    return names;
}

}  // namespace

// By hand from the circuit file: ten lamps; with the stalk to the left the charge tell-tale is on, and four
// lamps flash.
TEST_CASE("Who looks all round is told what does something, and how much does not") {
    ServicedVehicle vehicle = vehicle_with(signals(), {}, "indicators-left");
    const std::string box = "Fuse and relay box, left of the steering column";
    CHECK(names_seen(vehicle, "look") ==
          std::vector<std::string>{"P1", "P14", "E50", "E51", "E54", box, "and"});
    CHECK(found(doing(vehicle, "look").observed, "and").find("5 things that stand still, dark") == 0);
    CHECK(names_seen(vehicle, "look all").size() == 11);
}

TEST_CASE("What has fallen silent since one last looked is told once") {
    ServicedVehicle vehicle = vehicle_with(signals(), {}, "indicators-left");
    doing(vehicle, "look");
    doing(vehicle, "set S46=off");
    const auto seen = doing(vehicle, "look").observed;
    CHECK(found(seen, "E50") == "dark");
    CHECK(found(seen, "E52").empty());
    CHECK(found(doing(vehicle, "look").observed, "E50").empty());
}

TEST_CASE("A place is looked at by itself, with the fuses and relays there") {
    ServicedVehicle vehicle = vehicle_with(signals(), {"blown:F48"}, "indicators-ready");
    CHECK(names_seen(vehicle, "look front-left") == std::vector<std::string>{"E50"});
    doing(vehicle, "set S46=left");
    const auto seen = doing(vehicle, "look fuse-box").observed;
    CHECK(found(seen, "F48") == "blown");
    CHECK(found(seen, "F36") == "whole");
    CHECK(found(seen, "K13") == "did not click when something was last operated");
    CHECK(refusal(vehicle, "look dash-ground").find("nothing lights, moves, sounds or clicks") == 0);
    CHECK(refusal(vehicle, "look fuse-bo").find("did you mean fuse-box") != std::string::npos);
}

TEST_CASE("A finger on a relay tells whether it clicked when something was last operated") {
    ServicedVehicle vehicle = vehicle_with(horns(), {"open:X3.1"}, "ready");
    CHECK(refusal(vehicle, "look K2").find("nothing has been operated yet") == 0);
    doing(vehicle, "press S5=pressed");
    CHECK(found(doing(vehicle, "look K2").observed, "K2") == "clicked when something was last operated");
    CHECK(found(doing(vehicle, "look K2").observed, "K2") == "clicked when something was last operated");
    doing(vehicle, "set S1=off");
    CHECK(found(doing(vehicle, "look K2").observed, "K2") ==
          "did not click when something was last operated");
    ServicedVehicle torn = vehicle_with(horns(), {"open:K2.coil"}, "ready");
    doing(torn, "state sounding");
    CHECK(found(doing(torn, "look K2").observed, "K2") == "did not click when something was last operated");
}

// The fuse box takes 2 min to get at, by the circuit file; what is lit is seen from outside.
TEST_CASE("To look at a fuse, a relay or their box takes getting there") {
    const auto places = [](const char* text) {
        return places_of(signals(), read_action(text).value()).size();
    };
    CHECK(places("look F48") == 1);
    CHECK(places("look K13") == 1);
    CHECK(places("look fuse-box") == 1);
    CHECK(places("look E50") == 0);
    CHECK(places("look front-left") == 0);
    CHECK(places("look all") == 0);
    CHECK(places("look") == 0);
}

// By the circuit's own state: locked from outside, all four actuators at their locked ends.
TEST_CASE("A lock is seen to be locked, and one whose actuator gets nothing is not") {
    const model::Circuit locks = test::circuit_file("circuits/central-locking.circuit.xml");
    ServicedVehicle sound = vehicle_with(locks, {}, "locks-locked");
    ServicedVehicle torn = vehicle_with(locks, {"open:M12"}, "locks-locked");
    const auto shows = [](ServicedVehicle& vehicle, const std::string& part, const std::string& what) {
        const auto seen = doing(vehicle, "look " + part).observed;
        return std::ranges::find(seen, what, &Observed::what) != seen.end();
    };
    CHECK(shows(sound, "M12", "locked"));
    CHECK(shows(torn, "M11", "locked"));
    CHECK(shows(torn, "M12", "unlocked"));
}
