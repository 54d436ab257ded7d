#include <catch2/catch.hpp>

#include "engine/network/fault_change.h"
#include "engine/simulation/settle.h"
#include "tests/diagnosis/dictionary_support.h"

using namespace halfsplit;
using network::FaultChange;
using network::Network;

namespace {

/// The network with a change worked into it, as build_network with the fault would give it but for the order
/// of what is added.
Network changed(Network network, const FaultChange& change) {
    for (const FaultChange::Changed& changed : change.branches) {
        network::NetworkBranch& branch = network.branches[at(changed.branch)];
        branch.electrical.law = changed.law;
        branch.electrical.conducts = changed.conducts;
        branch.always = changed.always;
    }
    for (const FaultChange::Leak& leak : change.leaks) {
        network::NetworkBranch added;
        added.electrical = {leak.from, leak.to, model::Resistance{leak.ohm}, true};
        network.branches.push_back(added);
    }
    for (const FaultChange::Held& held : change.held) {
        network.conditions[at(held.part)] = held.condition;
        network.forced[at(held.part)] = true;
    }
    for (const FaultChange::Level& level : change.levels)
        network.triggers[at(level.trigger)].trigger = level.acts;
    return network;
}

/// All potentials in the network's own conditions.
std::vector<double> potentials(const Network& network) {
    const auto point = simulation::solve_in_conditions(network, network.conditions);
    return point ? point->potential_v : std::vector<double>{};
}

double worst_difference(const std::vector<double>& one, const std::vector<double>& other) {
    if (one.size() != other.size()) return 1e9;
    double worst = 0;
    for (std::size_t i = 0; i < one.size(); ++i) worst = std::max(worst, std::abs(one[i] - other[i]));
    return worst;
}

bool same_levels(const Network& one, const Network& other) {
    for (std::size_t i = 0; i < one.triggers.size(); ++i)
        if (one.triggers[i].trigger.rise != other.triggers[i].trigger.rise ||
            one.triggers[i].trigger.fall != other.triggers[i].trigger.fall)
            return false;
    return one.triggers.size() == other.triggers.size();
}

struct Tally {
    int compared = 0;
    int anew = 0;
};

void compare_changes(const model::Circuit& circuit, const model::OperatingState& state, int every,
                     Tally& tally) {
    const auto settled = simulation::settle(circuit, {}, state.steps);
    REQUIRE(settled);
    network::Situation situation = settled->situation;
    const auto sound = network::build_network(circuit, situation);
    REQUIRE(sound);
    auto changes = network::FaultChanges::in(circuit, *sound, situation);
    REQUIRE(changes);
    int number = 0;
    for (const auto& [fault, rate] : diagnosis::fault_universe(circuit)) {
        if (number++ % every != 0) continue;
        const auto change = changes->of(fault);
        situation.faults = {fault};
        const auto built = network::build_network(circuit, situation);
        INFO(circuit.id << ", " << state.id << ", " << fault.text);
        if (!change) {
            ++tally.anew;
            continue;
        }
        REQUIRE(built);
        const Network here = changed(*sound, *change);
        CHECK(worst_difference(potentials(here), potentials(*built)) < 1e-8);
        CHECK(here.conditions == built->conditions);
        CHECK(here.forced == built->forced);
        CHECK(same_levels(here, *built));
        ++tally.compared;
    }
}

}  // namespace

// The reference is the network built anew with the fault in it, solved.
TEST_CASE("What a fault changes in a network makes it the network with the fault") {
    Tally tally;
    for (const std::string& name : test::small_circuits()) {
        const model::Circuit circuit = test::shipped(name);
        for (const model::OperatingState& state : circuit.states) compare_changes(circuit, state, 1, tally);
    }
    CAPTURE(tally.compared, tally.anew);
    CHECK(tally.compared > 20 * tally.anew);
}

TEST_CASE("What a fault changes in the network of a whole van makes it the network with the fault") {
    const model::Circuit van = test::shipped("van-body");
    Tally tally;
    compare_changes(van, van.states[1], 101, tally);
    CAPTURE(tally.compared, tally.anew);
    CHECK(tally.compared > 60);
}

// The reference is the plain way. A microvolt is what single precision leaves of 12 V.
TEST_CASE("The quick dictionary of every small circuit is the one made anew") {
    for (const std::string& name : test::small_circuits()) {
        const model::Circuit circuit = test::shipped(name);
        const auto sound = simulation::settle(circuit, {}, circuit.states.front().steps);
        REQUIRE(sound);
        if (sound->living) continue;
        const auto quick = diagnosis::make_dictionary(circuit);
        const auto anew = diagnosis::dictionary_anew(circuit);
        REQUIRE(quick);
        REQUIRE(anew);
        const test::Apart apart = test::apart(*quick, *anew);
        INFO(name << ": " << apart.rows << " rows, worst " << apart.worst_v << " V, " << apart.where);
        CHECK(apart.worst_v < 1e-5);
        CHECK(apart.worst_a < 1e-5);
        CHECK(apart.signs == 0);
        CHECK(apart.not_at_all == 0);
        CHECK(apart.rows == static_cast<int>(quick->told.size()));
        WARN(name << ": " << apart.rows << " rows, worst " << apart.worst_v << " V, " << apart.worst_a);
    }
}
