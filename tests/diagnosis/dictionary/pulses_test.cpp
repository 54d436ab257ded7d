#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string_view>

#include "engine/diagnosis/dictionary/pulses.h"
#include "engine/diagnosis/swing.h"
#include "engine/simulation/course.h"
#include "tests/diagnosis/dictionary/support.h"

using namespace halfsplit;
using diagnosis::Finding;
using diagnosis::Pulse;

namespace {

int finding_at(const diagnosis::Dictionary& dictionary, Finding::Kind kind, const std::string& where) {
    for (int i = 0; i < static_cast<int>(dictionary.findings.size()); ++i) {
        const Finding& each = dictionary.findings[at(i)];
        if (each.kind == kind && each.at == where && (each.against.empty() || each.against == "body"))
            return i;
    }
    FAIL("nothing is found at " << where);
    return -1;
}

int row_with(const diagnosis::Dictionary& dictionary, const std::string& fault) {
    for (int i = 0; i < static_cast<int>(dictionary.faults.size()); ++i)
        if (dictionary.faults[at(i)].fault.text == fault) return i + 1;
    FAIL("no fault " << fault);
    return -1;
}

/// The faults of those names, of the circuit's universe.
std::vector<diagnosis::PossibleFault> faults_named(const model::Circuit& circuit,
                                                   const std::vector<std::string>& names) {
    std::vector<diagnosis::PossibleFault> faults = diagnosis::fault_universe(circuit);
    std::erase_if(faults, [&](const diagnosis::PossibleFault& each) {
        return std::ranges::find(names, each.fault.text) == names.end();
    });
    REQUIRE(faults.size() == names.size());
    return faults;
}

diagnosis::Dictionary dictionary_of(const model::Circuit& circuit, const std::string& state,
                                    const std::vector<std::string>& faults) {
    auto dictionary =
        diagnosis::make_dictionary(circuit, {.states = {state}, .faults = faults_named(circuit, faults)});
    REQUIRE(dictionary);
    return std::move(*dictionary);
}

}  // namespace

// Common practice: an indicator flashes 60 to 120 times a minute, slow enough to see lamp and needle jump to
// the supply's voltage and back.
TEST_CASE("A lamp that blinks is found lit, with the voltage it blinks with, unless a fault keeps it dark") {
    const auto dictionary =
        dictionary_of(test::shipped("turn-signals"), "indicators-left", {"open:E50", "open:E54"});
    const int lamp = finding_at(dictionary, Finding::Kind::sign, "E50");
    const int other_side = finding_at(dictionary, Finding::Kind::sign, "E52");
    CHECK(dictionary.pulses[0].of[at(lamp)] == Pulse::slow);
    CHECK(dictionary.pulses[0].of[at(other_side)] == Pulse::none);
    const auto lit = static_cast<double>(diagnosis::Sign::works);
    CHECK(dictionary.value(0, 0, lamp) == lit);
    CHECK(dictionary.value(0, 0, other_side) == 0);
    CHECK(dictionary.value(0, row_with(dictionary, "open:E50"), lamp) == 0);
    CHECK(dictionary.value(0, row_with(dictionary, "open:E54"), lamp) == lit);
    const int feed = finding_at(dictionary, Finding::Kind::voltage, "E50.1");
    CHECK(dictionary.pulses[0].of[at(feed)] == Pulse::slow);
    CHECK(dictionary.value(0, 0, feed) > 10.5);
    CHECK(dictionary.value(0, row_with(dictionary, "open:E50"), feed) > 10.5);
}

// By hand.
TEST_CASE("What goes to and fro is found as it is while it is up") {
    const auto up = [](std::vector<double> values) { return diagnosis::while_up(values); };
    CHECK(up({3}) == 3);
    CHECK(up({2, 2, 2}) == 2);
    CHECK(up({0, 12, 12, 0, 12}) == 12);
    CHECK(up({0, 0, 0, 0, 0, 5}) == 5);                      // a flash
    CHECK(up({0, 17, 2.5, 1.8, 1.7, 1.7, 0, 0}) == 1.8);     // a cold lamp
    CHECK(up({0, -17, -2.5, -1.8, -1.7, -1.7, 0}) == -1.8);  // with the leads the other way round
    CHECK(up({12.6, 12.2, 12.6, 12.2, 12.6}) == 12.6);
}

// The hot current of a filament goes with the 0.55th power of its voltage (lamp re-rating, Fink & Beaty,
// Standard Handbook for Electrical Engineers, 11th ed. p. 22-8). A cold one takes about ten times as much at
// first, and a flasher lets it cool down.
TEST_CASE("A lamp that blinks is found with the current of a warm one, not with its inrush") {
    const std::vector<std::string> faults{"high-resistance:E54.1", "open:E50",
                                          "contact-resistance:S46.49a-L"};
    const auto dictionary = dictionary_of(test::shipped("turn-signals"), "indicators-left", faults);
    const int feed = finding_at(dictionary, Finding::Kind::voltage, "E54.1");
    const int ground = finding_at(dictionary, Finding::Kind::voltage, "E54.2");
    const int wire = finding_at(dictionary, Finding::Kind::current, "W1537");
    for (int row = 0; row <= static_cast<int>(faults.size()); ++row) {
        const std::string fault = row == 0 ? "" : dictionary.faults[at(row - 1)].fault.text;
        const bool is_in_its_plug = fault == "high-resistance:E54.1";
        const double ampere = dictionary.value(0, row, wire);
        constexpr double kContactOhm = 2;  // of the fault, as said for it
        const double volt = dictionary.value(0, row, feed) - dictionary.value(0, row, ground) -
                            (is_in_its_plug ? kContactOhm * ampere : 0);
        INFO(fault << ": " << ampere << " A at " << volt << " V");
        CHECK(ampere == Approx(21.0 / 12 * std::pow(volt / 12, 0.55)).epsilon(0.03));
    }
}

// 50 km/h and 4000 pulses a kilometre are 56 a second, by hand: a voltmeter shows what is between.
TEST_CASE("A sender's pulses are found as the mean that a voltmeter settles on") {
    const model::Circuit circuit = test::shipped("entry-step");
    const auto dictionary = dictionary_of(circuit, "step-driving", {"blown:F26"});
    const auto settled = simulation::settle(circuit, {}, circuit.find_state("step-driving")->steps);
    REQUIRE(settled);
    int fast = 0;
    for (int i = 0; i < static_cast<int>(dictionary.findings.size()); ++i) {
        const Finding& each = dictionary.findings[at(i)];
        if (each.kind != Finding::Kind::voltage || each.against != "body") continue;
        if (dictionary.pulses[0].of[at(i)] != Pulse::fast) continue;
        const int node = settled->network.point_nodes.find(each.at)->second;
        const auto swings = diagnosis::watch(circuit, *settled, {{node, network::kBody}});
        REQUIRE(swings);
        const double share = (dictionary.value(0, 0, i) - swings->front().least_v) /
                             (swings->front().most_v - swings->front().least_v);
        INFO(each.at);
        CHECK(share > 0.3);
        CHECK(share < 0.7);
        ++fast;
    }
    CHECK(fast >= 2);
}

// The reference is the course of time, looked at every millisecond: its mean is what a voltmeter settles on.
// With the fuse blown the control unit is fed backwards, through the charge tell-tale: what it switches on
// takes its supply away, it lets go, and begins anew.
TEST_CASE("What pulses with a fault alone is found as a voltmeter shows it, not as it is at one moment") {
    const model::Circuit circuit = test::shipped("wipers");
    const auto dictionary = dictionary_of(circuit, "wipers-fast", {"blown:F1"});
    const int supply = finding_at(dictionary, Finding::Kind::voltage, "A5.15");
    CHECK(dictionary.pulses[0].of[at(supply)] == Pulse::none);

    network::Situation situation;
    situation.faults = {dictionary.faults.front().fault};
    const auto settled = simulation::settle(circuit, situation, circuit.find_state("wipers-fast")->steps);
    REQUIRE(settled);
    auto course = simulation::Course::begin(circuit, *settled, {});
    REQUIRE(course);
    const int node = settled->network.point_nodes.find("A5.15")->second;
    const double begin_s = course->now_s();
    constexpr int kLooks = 3000;
    std::vector<double> volts;
    for (int look = 0; look < kLooks; ++look) {
        REQUIRE(course->run_until(begin_s + look * 1e-3));
        volts.push_back(course->potential_v(node));
    }
    const double mean_v = std::accumulate(volts.begin(), volts.end(), 0.0) / kLooks;
    const auto [least, most] = std::ranges::minmax_element(volts);
    CHECK(*most - *least > 5);
    CHECK(dictionary.value(0, 1, supply) == Approx(mean_v).epsilon(0.05));
}

// By hand: at 90 a minute a flasher has its lamp lit for a third of a second and dark for another.
TEST_CASE("A lamp that blinks with a fault alone is found lit, whenever one looks") {
    for (const double seconds : {5.0, 5.12, 5.24, 5.36, 5.48, 5.6}) {
        model::Circuit circuit = test::shipped("turn-signals");
        auto state = std::ranges::find(circuit.states, "indicators-ready", &model::OperatingState::id);
        REQUIRE(state != circuit.states.end());
        state->steps.push_back(model::SettleStep{seconds});
        const auto dictionary = dictionary_of(circuit, "indicators-ready", {"stuck-closed:S46.49a-L"});
        const int lamp = finding_at(dictionary, Finding::Kind::sign, "E50");
        INFO("after " << seconds << " s");
        CHECK(dictionary.pulses[0].of[at(lamp)] == Pulse::none);
        CHECK(dictionary.value(0, 0, lamp) == 0);
        CHECK(dictionary.value(0, 1, lamp) == static_cast<double>(diagnosis::Sign::works));
    }
}

TEST_CASE("Nothing pulses in a circuit that stands still") {
    const auto dictionary = dictionary_of(test::shipped("horn"), "sounding", {"blown:F7"});
    CHECK_FALSE(dictionary.pulses[0].any());
    CHECK(std::ranges::count(dictionary.pulses[0].of, Pulse::none) == std::ssize(dictionary.findings));
}
