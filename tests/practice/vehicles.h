#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

#include "engine/practice/session/serviced_vehicle.h"
#include "tests/support/circuit_text.h"

namespace halfsplit::test {

/// Ends the test where it does not come to the state.
inline practice::ServicedVehicle vehicle_with(const model::Circuit& circuit,
                                              const std::vector<std::string>& faults,
                                              const std::string& state) {
    const int index = static_cast<int>(circuit.find_state(state) - circuit.states.data());
    auto vehicle = practice::ServicedVehicle::arrive(circuit, faults_of(circuit, faults), index);
    if (!vehicle) FAIL(vehicle.error());
    return std::move(*vehicle);
}

/// Ends the test where it cannot be done.
inline practice::Effect doing(practice::ServicedVehicle& vehicle, const std::string& text) {
    const auto effect = vehicle.carry_out(practice::read_action(text).value());
    if (!effect) FAIL(text << ": " << effect.error());
    return *effect;
}

inline std::string refusal(practice::ServicedVehicle& vehicle, const std::string& text) {
    const auto effect = vehicle.carry_out(practice::read_action(text).value());
    REQUIRE_FALSE(effect);
    return effect.error();
}

/// What is shown of it first; empty where nothing is.
inline std::string found(const std::vector<practice::Observed>& observed, const std::string& about) {
    const auto one = std::ranges::find(observed, about, &practice::Observed::about);
    return one == observed.end() ? "" : one->shown;
}

}  // namespace halfsplit::test
