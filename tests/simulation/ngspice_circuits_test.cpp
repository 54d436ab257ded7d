#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <iostream>
#include <random>

#include "engine/diagnosis/fault_universe.h"
#include "tests/support/circuit_text.h"
#include "tests/support/ngspice_deck.h"
#include "tests/support/ngspice_pieces.h"
#include "tests/support/sanitized.h"

using namespace halfsplit;

namespace {

std::vector<std::string> circuit_paths() {
    std::vector<std::string> paths;
    const std::filesystem::path root = HALFSPLIT_SOURCE_DIR;
    for (const auto& entry : std::filesystem::directory_iterator(root / "circuits"))
        if (entry.path().string().ends_with(".circuit.xml"))
            paths.push_back("circuits/" + entry.path().filename().string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

/// The branches of a settled circuit, each conducting or not as its parts have come to rest.
std::vector<network::Branch> branches_of(const simulation::Settled& settled) {
    std::vector<network::Branch> branches;
    for (const network::NetworkBranch& branch : settled.network.branches) {
        branches.push_back(branch.electrical);
        branches.back().conducts = settled.network.conducts(branch, settled.point.conditions);
    }
    return branches;
}

/// What floats is left out: it hangs on the leakage of 1 nS a node, below what ngspice's factorisation
/// resolves. Largest difference between our potentials and ngspice's on the same network, in volts.
double worst_difference(const simulation::Settled& settled) {
    const auto branches = branches_of(settled);
    const int nodes = settled.network.node_count;
    auto theirs =
        test::ngspice_run(nodes, test::ngspice_deck(nodes, branches, test::DeckFor::values_by_shockley));
    if (!theirs) theirs = test::ngspice_potentials_by_pieces(nodes, branches, settled.point.potential_v);
    if (!theirs) FAIL(theirs.error());
    double worst_v = 0;
    for (std::size_t node = 0; node < theirs->size(); ++node)
        if (!settled.point.floating[node])
            worst_v = std::max(worst_v, std::abs((*theirs)[node] - settled.point.potential_v[node]));
    return worst_v;
}

}  // namespace

// ngspice (Debian package, version 39) on the same network: every circuit we ship, every state, sound and
// with thirty faults drawn from its universe (two where control units act, none and every twentieth state in
// the whole vehicle, which is of the same circuits), all node
// voltages within 1 mV.
TEST_CASE("ngspice finds the same voltages in every circuit and state, with and without faults") {
    constexpr int kFaultsEach = test::kSanitized ? 2 : 30;
    constexpr int kFaultsEachWithUnits = 2;  // each has to be run through time first
    constexpr std::size_t kEveryStateOfAWholeVehicle = 20;
    constexpr std::size_t kPartsOfOneCircuit = 100;
    double worst_v = 0;
    int solved = 0;
    const std::vector<std::string> paths = circuit_paths();
    REQUIRE(paths.size() >= 8);
    for (const std::string& path : paths) {
        const model::Circuit circuit = test::circuit_file(path);
        const auto universe = diagnosis::fault_universe(circuit);
        REQUIRE(circuit.states.size() >= 4);
        std::mt19937 random(20240229);
        const bool is_whole_vehicle = circuit.parts.size() > kPartsOfOneCircuit;
        const bool is_run_through_time = !circuit.behaviours.empty();
        const int faults_each = is_whole_vehicle      ? 0
                                : is_run_through_time ? kFaultsEachWithUnits
                                                      : kFaultsEach;
        for (std::size_t i = 0; i < circuit.states.size();
             i += is_whole_vehicle ? kEveryStateOfAWholeVehicle : 1) {
            const model::OperatingState& state = circuit.states[i];
            for (int draw = 0; draw <= faults_each; ++draw) {
                network::Situation situation;
                if (draw > 0) situation.faults = {universe[random() % universe.size()].fault};
                const auto settled = simulation::settle(circuit, situation, state.steps);
                INFO(path << ", " << state.id
                          << (draw > 0 ? ", " + situation.faults.front().text : ", sound"));
                REQUIRE(settled);
                const double difference_v = worst_difference(*settled);
                CHECK(difference_v < 1e-3);
                worst_v = std::max(worst_v, difference_v);
                ++solved;
            }
        }
    }
    std::cout << "ngspice: " << solved << " operating points of " << paths.size()
              << " circuits, worst difference " << worst_v << " V\n";
}
