#include <catch2/catch.hpp>

#include "engine/diagnosis/dictionary/blank.h"
#include "engine/diagnosis/dictionary/row_as_it_stands.h"
#include "engine/network/fault_change.h"
#include "engine/simulation/settle.h"
#include "tests/diagnosis/dictionary/support.h"
#include "tests/support/circuit_text.h"
#include "tests/support/random_network.h"
#include "tests/support/sanitized.h"

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

void check_same(const Network& here, const Network& built) {
    CHECK(worst_difference(potentials(here), potentials(built)) < 1e-8);
    CHECK(here.conditions == built.conditions);
    CHECK(here.forced == built.forced);
    CHECK(same_levels(here, built));
}

struct Tally {
    int compared = 0;
    int anew = 0;
};

/// A circuit in a state, and what faults change there.
struct SoundState {
    SoundState(const model::Circuit& of, const model::OperatingState& state) : circuit(of) {
        const auto settled = simulation::settle(circuit, {}, state.steps);
        REQUIRE(settled);
        situation = settled->situation;
        sound = built_with({});
        REQUIRE(sound);
        auto found = network::FaultChanges::in(circuit, *sound, situation);
        REQUIRE(found);
        changes.emplace(std::move(*found));
    }

    tl::expected<Network, Diagnostics> built_with(std::vector<network::Fault> faults) const {
        network::Situation faulty = situation;
        faulty.faults = std::move(faults);
        return network::build_network(circuit, faulty);
    }

    const model::Circuit& circuit;
    network::Situation situation;
    tl::expected<Network, Diagnostics> sound;
    std::optional<network::FaultChanges> changes;
};

void compare_changes(const model::Circuit& circuit, const model::OperatingState& state, int every,
                     Tally& tally) {
    SoundState there(circuit, state);
    int number = 0;
    for (const auto& [fault, rate] : diagnosis::fault_universe(circuit)) {
        if (number++ % every != 0) continue;
        const auto change = there.changes->of(fault);
        const auto built = there.built_with({fault});
        INFO(circuit.id << ", " << state.id << ", " << fault.text);
        if (!change) {
            ++tally.anew;
            continue;
        }
        REQUIRE(built);
        check_same(changed(*there.sound, *change), *built);
        ++tally.compared;
    }
}

/// Two faults drawn at random, so many times.
void compare_pairs(const model::Circuit& circuit, const model::OperatingState& state, int pairs,
                   std::mt19937_64& generator, Tally& tally) {
    SoundState there(circuit, state);
    const auto faults = diagnosis::fault_universe(circuit);
    for (int i = 0; i < pairs; ++i) {
        const network::Fault& one = faults[generator() % faults.size()].fault;
        const network::Fault& other = faults[generator() % faults.size()].fault;
        const auto change_of_one = there.changes->of(one);
        const auto change_of_other = there.changes->of(other);
        if (!change_of_one || !change_of_other) continue;
        INFO(circuit.id << ", " << state.id << ", " << one.text << " and " << other.text);
        const auto both = network::together(*change_of_one, *change_of_other);
        if (!both) {
            ++tally.anew;
            continue;
        }
        const auto built = there.built_with({one, other});
        REQUIRE(built);
        check_same(changed(*there.sound, *both), *built);
        ++tally.compared;
    }
}

}  // namespace

/// One fault in so many is compared.
constexpr int kEvery = test::kSanitized ? 61 : 1;

// The reference is the network built anew with the fault in it, solved.
TEST_CASE("What a fault changes in a network makes it the network with the fault") {
    Tally tally;
    for (const std::string& name : test::small_circuits()) {
        const model::Circuit circuit = test::shipped(name);
        for (const model::OperatingState& state : circuit.states)
            compare_changes(circuit, state, kEvery, tally);
    }
    CAPTURE(tally.compared, tally.anew);
    CHECK(tally.compared > 10 * tally.anew);
}

TEST_CASE("What two faults change together makes it the network with both") {
    Tally tally;
    std::mt19937_64 generator(1);
    for (const std::string& name : test::small_circuits()) {
        const model::Circuit circuit = test::shipped(name);
        for (const model::OperatingState& state : circuit.states)
            compare_pairs(circuit, state, test::kSanitized ? 2 : 60, generator, tally);
    }
    CAPTURE(tally.compared, tally.anew);
    CHECK(tally.compared > 10 * tally.anew);
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
        diagnosis::DictionaryOptions options;
        int number = 0;
        for (diagnosis::PossibleFault& fault : diagnosis::fault_universe(circuit))
            if (number++ % kEvery == 0) options.faults.push_back(std::move(fault));
        const auto quick = diagnosis::make_dictionary(circuit, options);
        const auto anew = diagnosis::dictionary_anew(circuit, options);
        REQUIRE(quick);
        REQUIRE(anew);
        const test::Apart apart = test::apart(*quick, *anew);
        INFO(name << ": " << apart.rows << " rows, worst " << apart.worst_v << " V, " << apart.where);
        CHECK(apart.worst_v < 1e-5);
        CHECK(apart.worst_a < 1e-5);
        CHECK(apart.signs == 0);
        CHECK(apart.not_at_all == 0);
        CHECK(apart.rows == static_cast<int>(quick->told.size()));
    }
}

namespace {

/// What goes to and fro in the sound vehicle, and where something would have gone to.
bool does_move(const diagnosis::Dictionary& dictionary, int state, int finding) {
    return dictionary.does_pulse(state, finding) ||
           dictionary.findings[at(finding)].at.ends_with(".position");
}

/// What stands still does not tell that.
void check_moves_unknown(const diagnosis::Dictionary& quick) {
    int known = 0;
    for (int state = 0; state < static_cast<int>(quick.states.size()); ++state)
        for (int row = 1; row < quick.rows(); ++row)
            for (int finding = 0; finding < static_cast<int>(quick.findings.size()); ++finding)
                if (does_move(quick, state, finding) && !std::isnan(quick.value(state, row, finding)))
                    ++known;
    CHECK(known == 0);
}

void leave_out_moves(diagnosis::Dictionary& dictionary) {
    for (int state = 0; state < static_cast<int>(dictionary.states.size()); ++state)
        for (int row = 0; row < dictionary.rows(); ++row)
            for (std::size_t finding = 0; finding < dictionary.findings.size(); ++finding)
                if (does_move(dictionary, state, static_cast<int>(finding)))
                    diagnosis::row_of(dictionary, state, row)[finding] = 0;
}

double distance(std::span<const float> one, std::span<const float> other) {
    double sum = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        if (std::isfinite(one[i]) && std::isfinite(other[i])) sum += std::abs(one[i] - other[i]);
    return sum;
}

/// The network built anew for one row of `quick`, into `anew`: from asleep where that is nearer to what the
/// quick way found.
void build_anew(const model::Circuit& circuit, const diagnosis::StateBase& base, diagnosis::Dictionary& quick,
                int state, int row, diagnosis::Dictionary& anew) {
    const std::vector<network::Fault> faults{quick.faults[at(row - 1)].fault};
    const auto found = diagnosis::row_of(quick, state, row);
    std::vector<float> asleep(found.size());
    const auto told = diagnosis::row_as_it_stands(circuit, base, faults, diagnosis::Start::standing,
                                                  quick.findings, diagnosis::row_of(anew, state, row));
    anew.told[at(state) * at(quick.rows()) + at(row)] = told;
    const auto told_asleep =
        diagnosis::row_as_it_stands(circuit, base, faults, diagnosis::Start::asleep, quick.findings, asleep);
    const auto standing = diagnosis::row_of(anew, state, row);
    if (told_asleep == diagnosis::Told::not_at_all || distance(found, standing) <= distance(found, asleep))
        return;
    std::ranges::copy(asleep, standing.begin());
    anew.told[at(state) * at(quick.rows()) + at(row)] = told_asleep;
}

/// Compares rows that were put into what stands with the network built anew for each fault.
void compare_as_it_stands(const model::Circuit& circuit, const std::vector<std::string>& states, int every,
                          std::uint64_t start) {
    diagnosis::DictionaryOptions options{.states = states, .settle_anew = false};
    test::Random random(start);
    for (diagnosis::PossibleFault& fault : diagnosis::fault_universe(circuit))
        if (random.below(every) == 0) options.faults.push_back(std::move(fault));
    auto quick = diagnosis::make_dictionary(circuit, options);
    REQUIRE(quick);
    diagnosis::Dictionary anew = *quick;
    for (int state = 0; state < static_cast<int>(quick->states.size()); ++state) {
        const auto base =
            diagnosis::StateBase::of(circuit, *circuit.find_state(quick->states[at(state)]), quick->findings);
        REQUIRE(base);
        REQUIRE(base->lives);
        for (int row = 1; row < quick->rows(); ++row) build_anew(circuit, *base, *quick, state, row, anew);
    }
    check_moves_unknown(*quick);
    leave_out_moves(*quick);
    leave_out_moves(anew);
    const test::Apart apart = test::apart(*quick, anew, diagnosis::Told::as_it_stands);
    INFO(circuit.id << ": " << apart.rows << " rows, worst " << apart.worst_v << " V, " << apart.where);
    CHECK(apart.worst_v < 1e-5);
    CHECK(apart.worst_a < 1e-5);
    CHECK(apart.signs == 0);
    CHECK(apart.not_at_all == 0);
    CHECK(apart.rows > 0);
}

std::vector<std::string> states_of(const model::Circuit& circuit) {
    std::vector<std::string> ids;
    for (const model::OperatingState& state : circuit.states) ids.push_back(state.id);
    return ids;
}

}  // namespace

// The reference is the network built anew with the fault, in the conditions the sound vehicle stands in.
TEST_CASE("A fault put into a circuit that lives as it stands is the network built anew") {
    for (const char* name : {"entry-step", "turn-signals", "power-window", "parasitic-drain"}) {
        const model::Circuit circuit = test::shipped(name);
        compare_as_it_stands(circuit, states_of(circuit), kEvery, 1);
    }
}

TEST_CASE("One fault in a hundred put into a whole van as it stands is the network built anew") {
    compare_as_it_stands(test::shipped("van-body"), {"driving-at-night", "parked"},
                         test::kSanitized ? 500 : 100, 20);
}

// F35 feeds the van's wiper motor, whose park contacts have a fuse of their own: while the wiper is half-way
// they feed the motor's relays from behind. The reference is the fuse that was blown before the wipers were
// switched on.
TEST_CASE("A blown fuse is not fed from behind by what would not have come on without it") {
    const model::Circuit circuit = test::shipped("van-body");
    diagnosis::DictionaryOptions options{.states = {"driving-at-night"}};
    options.faults.push_back({test::faults_of(circuit, {"blown:F35"}).front(), 1});
    const auto anew = diagnosis::make_dictionary(circuit, options);
    options.settle_anew = false;
    const auto quick = diagnosis::make_dictionary(circuit, options);
    REQUIRE(anew);
    REQUIRE(quick);
    for (const char* part : {"M19", "K11.30", "K12.87"}) {
        const auto found = std::ranges::find(quick->findings, part, &diagnosis::Finding::at);
        REQUIRE(found != quick->findings.end());
        const auto finding = static_cast<int>(found - quick->findings.begin());
        INFO(part << ": " << quick->value(0, 1, finding));
        CHECK(quick->value(0, 0, finding) > 1);
        CHECK(quick->value(0, 1, finding) == Approx(anew->value(0, 1, finding)).margin(0.01));
    }
}

// The link that feeds all that the key switches carries more than its rating then, which melts it, but not
// while the starter turns or the engine idles for a moment. W2105 is always fed: its fuse had all night to
// blow. The reference is the course of time.
TEST_CASE("A fuse holds an overload for as long as it does, and what it feeds with it") {
    const model::Circuit circuit = test::shipped("van-body");
    for (const auto& [state, fault] :
         {std::pair("cranking", "short-to-ground:W2004"), std::pair("engine-idle", "short-to-ground:W1706"),
          std::pair("cranking", "short-to-ground:W2105")}) {
        diagnosis::DictionaryOptions options{.states = {state}};
        options.faults.push_back({test::faults_of(circuit, {fault}).front(), 1});
        const auto anew = diagnosis::make_dictionary(circuit, options);
        options.settle_anew = false;
        const auto quick = diagnosis::make_dictionary(circuit, options);
        REQUIRE(anew);
        REQUIRE(quick);
        for (const char* point : {"F1.1", "F2.2", "S1.15", "J2"}) {
            const auto found = std::ranges::find(quick->findings, point, &diagnosis::Finding::at);
            REQUIRE(found != quick->findings.end());
            const auto finding = static_cast<int>(found - quick->findings.begin());
            INFO(fault << ", " << point << ": " << quick->value(0, 1, finding));
            CHECK(anew->value(0, 1, finding) > 5);
            CHECK(quick->value(0, 1, finding) == Approx(anew->value(0, 1, finding)).margin(0.2));
        }
    }
}

// The reference is the plain way: what a fault changed on the way into the state is in it.
TEST_CASE("Rows of a circuit that lives are settled anew unless there are too many") {
    const model::Circuit circuit = test::shipped("power-window");
    std::vector<diagnosis::PossibleFault> faults = diagnosis::fault_universe(circuit);
    faults.resize(30);
    diagnosis::DictionaryOptions options{.states = {circuit.states.back().id}, .faults = faults};
    const auto made = diagnosis::make_dictionary(circuit, options);
    const auto anew = diagnosis::dictionary_anew(circuit, options);
    options.settles_at_most = 5;
    const auto as_it_stands = diagnosis::make_dictionary(circuit, options);
    REQUIRE(made);
    REQUIRE(anew);
    REQUIRE(as_it_stands);
    CHECK(made->told == anew->told);
    CHECK(test::apart(*made, *anew).worst_v < 1e-5);
    CHECK(as_it_stands->told_of(0, 0) == diagnosis::Told::exactly);
    CHECK(as_it_stands->told_of(0, 1) == diagnosis::Told::as_it_stands);
}

TEST_CASE("The quick dictionary does not depend on the number of threads") {
    const model::Circuit circuit = test::shipped("interior-light");
    const auto one = diagnosis::make_dictionary(circuit, {.threads = 1});
    const auto three = diagnosis::make_dictionary(circuit, {.threads = 3});
    REQUIRE(one);
    REQUIRE(three);
    CHECK(one->values == three->values);
}

// The ladder dictionary worked by hand as fractions (12 V, six times 1 kohm), and by the same hand: with S1
// open or P1 short every node is at 0 V, and only the current tells them apart.
TEST_CASE(
    "In the dictionary of a ladder, the first rung open and shorted to ground are tied for every voltmeter") {
    const model::Circuit circuit = test::circuit_of(
        R"(<battery id="G1" open-circuit-v="12" internal-ohm="0.0001" plug="none"/><ground-point id="E1" ohm="0"/>
           <resistor id="S1" ohm="1000" plug="none"/><resistor id="P1" ohm="1000" plug="none"/>
           <resistor id="S2" ohm="1000" plug="none"/><resistor id="P2" ohm="1000" plug="none"/>
           <resistor id="S3" ohm="1000" plug="none"/><resistor id="P3" ohm="1000" plug="none"/>
           <splice id="V1"/><splice id="V2"/><splice id="V3"/>)",
        R"(<wire id="W0" from="G1.-" to="E1" ohm="0"/><wire id="W1" from="G1.+" to="S1.1" ohm="0.001"/>
           <wire id="W2" from="S1.2" to="V1" ohm="0"/><wire id="W3" from="V1" to="P1.1" ohm="0"/>
           <wire id="W4" from="P1.2" to="E1" ohm="0"/><wire id="W5" from="V1" to="S2.1" ohm="0"/>
           <wire id="W6" from="S2.2" to="V2" ohm="0"/><wire id="W7" from="V2" to="P2.1" ohm="0"/>
           <wire id="W8" from="P2.2" to="E1" ohm="0"/><wire id="W9" from="V2" to="S3.1" ohm="0"/>
           <wire id="W10" from="S3.2" to="V3" ohm="0"/><wire id="W11" from="V3" to="P3.1" ohm="0"/>
           <wire id="W12" from="P3.2" to="E1" ohm="0"/>)",
        "", R"(<state id="on" title="On"/>)");
    const auto faults = test::faults_of(
        circuit, {"open:S1", "short:P1=0.001", "short:S2=0.001", "open:P2", "open:S3", "short:P3=0.001"});
    diagnosis::DictionaryOptions options;
    for (const network::Fault& fault : faults) options.faults.push_back({fault, 1});
    const auto made = diagnosis::make_dictionary(circuit, options);
    REQUIRE(made);
    const std::vector<std::vector<double>> expected{{60.0 / 13, 24.0 / 13, 12.0 / 13},
                                                    {0, 0, 0},
                                                    {0, 0, 0},
                                                    {24.0 / 7, 24.0 / 7, 12.0 / 7},
                                                    {36.0 / 7, 24.0 / 7, 12.0 / 7},
                                                    {24.0 / 5, 12.0 / 5, 0},
                                                    {9.0 / 2, 3.0 / 2, 0}};
    const auto finding = [&](diagnosis::Finding::Kind kind, const std::string& where) {
        for (int i = 0; i < static_cast<int>(made->findings.size()); ++i)
            if (made->findings[at(i)].kind == kind && made->findings[at(i)].at == where) return i;
        FAIL("no finding at " << where);
        return -1;
    };
    for (int row = 0; row < made->rows(); ++row)
        for (int k = 0; k < 3; ++k) {
            const int point = finding(diagnosis::Finding::Kind::voltage, "V" + std::to_string(k + 1));
            // A 10 Mohm meter takes up to 1e-4 of what stands behind 1 kohm.
            CHECK(made->value(0, row, point) ==
                  Approx(expected[at(row)][at(k)]).epsilon(1.1e-4).margin(2e-5));
        }
    const int current = finding(diagnosis::Finding::Kind::current, "W1");
    CHECK(made->value(0, 1, current) < 1e-6);
    CHECK(made->value(0, 2, current) == Approx(0.012).epsilon(1e-3));
}
