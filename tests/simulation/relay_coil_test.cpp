#include <catch2/catch.hpp>

#include <filesystem>

#include "engine/network/fault.h"
#include "tests/support/circuit_text.h"
#include "tests/support/files.h"

using namespace halfsplit;

namespace {

bool is_energised(const model::Circuit& circuit, const simulation::Settled& settled,
                  const std::string& relay) {
    return test::condition_of(circuit, settled, relay) == "energised";
}

}  // namespace

// A torn coil pulls nothing, though the whole voltage stands between its ends, with or without a suppressor
// beside it (common practice: that is why one looks for the click and not for the volts alone).
TEST_CASE("No relay with a torn coil pulls in, in any state of any circuit") {
    int tried = 0;
    for (const auto& entry : std::filesystem::directory_iterator(test::project_file("circuits"))) {
        const std::string name = entry.path().filename().string();
        // The van has the relays of the others.
        if (!name.ends_with(".circuit.xml") || name.starts_with("van-body")) continue;
        const model::Circuit circuit = test::circuit_file("circuits/" + name);
        for (const model::Part& part : circuit.parts) {
            if (part.kind->element != "relay") continue;
            const auto fault = network::parse_fault(circuit, "open:" + part.id + ".coil");
            REQUIRE(fault);
            for (const model::OperatingState& state : circuit.states) {
                const auto sound = simulation::settle(circuit, {}, state.steps);
                REQUIRE(sound);
                if (!is_energised(circuit, *sound, part.id)) continue;
                network::Situation torn;
                torn.faults.push_back(*fault);
                const auto broken = simulation::settle(circuit, torn, state.steps);
                REQUIRE(broken);
                INFO(name << " " << part.id << " in " << state.id);
                CHECK_FALSE(is_energised(circuit, *broken, part.id));
                ++tried;
            }
        }
    }
    CHECK(tried > 20);
}
