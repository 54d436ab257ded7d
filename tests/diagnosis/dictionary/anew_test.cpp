#include <catch2/catch.hpp>

#include <cmath>
#include <map>

#include "engine/diagnosis/dictionary/make_dictionary.h"
#include "engine/instruments/probing.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using diagnosis::Dictionary;
using diagnosis::Finding;
using diagnosis::Sign;
using diagnosis::Told;

namespace {

/// Those of the faults with these texts; all of them without.
std::vector<diagnosis::PossibleFault> possible(const model::Circuit& circuit,
                                               const std::vector<std::string>& texts) {
    std::vector<diagnosis::PossibleFault> faults;
    for (network::Fault& fault : test::faults_of(circuit, texts)) faults.push_back({std::move(fault), 1});
    return faults;
}

Dictionary dictionary_of(const model::Circuit& circuit, const diagnosis::DictionaryOptions& options) {
    auto made = diagnosis::dictionary_anew(circuit, options);
    if (!made) FAIL(to_text(made.error().front()));
    return std::move(*made);
}

int finding(const Dictionary& dictionary, Finding::Kind kind, const std::string& at,
            const std::string& against = "") {
    for (int i = 0; i < static_cast<int>(dictionary.findings.size()); ++i) {
        const Finding& each = dictionary.findings[halfsplit::at(i)];
        if (each.kind == kind && each.at == at && each.against == against) return i;
    }
    FAIL("no finding at " + at);
    return -1;
}

Sign sign(const Dictionary& dictionary, int state, int row, const std::string& part) {
    const int at = finding(dictionary, Finding::Kind::sign, part);
    return static_cast<Sign>(static_cast<int>(dictionary.value(state, row, at)));
}

/// What the voltmeter of engine/instruments shows may differ by half of its last digit: 6000 steps a range.
double half_a_digit(double volts) {
    const double size = std::abs(volts);
    return size < 0.5999 ? 0.5e-4 : size < 5.999 ? 0.5e-3 : 0.5e-2;
}

}  // namespace

TEST_CASE("A circuit is asked for all its points, drops, currents and signs, each once, with its place") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    const std::vector<Finding> findings = diagnosis::findings_of(circuit);
    std::map<std::tuple<int, std::string, std::string>, int> seen;
    for (const Finding& each : findings) {
        CHECK(++seen[{static_cast<int>(each.kind), each.at, each.against}] == 1);
        if (each.kind == Finding::Kind::sign) CHECK(each.place >= 0);
    }
    const auto has = [&](Finding::Kind kind, const std::string& at, const std::string& against) {
        return seen.contains({static_cast<int>(kind), at, against});
    };
    CHECK(has(Finding::Kind::voltage, "K2.85", "body"));
    CHECK_FALSE(has(Finding::Kind::voltage, "S1.50", "body"));
    CHECK(has(Finding::Kind::voltage, "X3.1b", "J20"));
    CHECK(has(Finding::Kind::voltage, "F7.1@part", "F7.2@part"));
    CHECK(has(Finding::Kind::voltage, "K2.30", "K2.87"));
    CHECK(has(Finding::Kind::voltage, "S5.1", "S5.2"));
    CHECK(has(Finding::Kind::current, "W204", ""));
    CHECK(has(Finding::Kind::sign, "P3", ""));
    CHECK(has(Finding::Kind::sign, "F8", ""));
    CHECK_FALSE(has(Finding::Kind::sign, "K2", ""));
}

// The reference is the voltmeter of engine/instruments: before it rounds, to single precision, and as shown.
TEST_CASE("The dictionary has what the voltmeter would read") {
    const model::Circuit circuit = test::circuit_file("circuits/exterior-lights.circuit.xml");
    std::vector<std::string> some;
    for (const auto& each : diagnosis::fault_universe(circuit))
        if (some.size() < 6 && each.fault.text.find("blown") != std::string::npos)
            some.push_back(each.fault.text);
    const Dictionary dictionary = dictionary_of(circuit, {.faults = possible(circuit, some)});
    for (int state = 0; state < static_cast<int>(circuit.states.size()); ++state)
        for (int row = 0; row < dictionary.rows(); ++row) {
            network::Situation situation;
            if (row > 0) situation.faults = {dictionary.faults[at(row - 1)].fault};
            const auto settled = simulation::settle(circuit, situation, circuit.states[at(state)].steps);
            REQUIRE(settled);
            for (int i = 0; i < static_cast<int>(dictionary.findings.size()); i += 7) {
                const Finding& asked = dictionary.findings[at(i)];
                if (asked.kind != Finding::Kind::voltage) continue;
                const instruments::Bench bench{circuit, *settled};
                const auto connected =
                    bench.with({{"voltmeter", asked.at, asked.against, model::Resistance{10e6}}});
                REQUIRE(connected);
                const double before_rounding =
                    instruments::voltage_between(*connected, asked.at, asked.against);
                const auto shown = instruments::measure(bench, "voltmeter", {asked.at, asked.against});
                REQUIRE(shown);
                INFO(asked.at << " against " << asked.against << ", row " << row);
                const double told = dictionary.value(state, row, i);
                CHECK(std::abs(told - before_rounding) < 2e-6);
                const double in_volts = shown->unit == "mV" ? shown->value / 1000 : shown->value;
                CHECK(std::abs(told - in_volts) < half_a_digit(told) * 1.0001 + 2e-6);
            }
        }
}

// What a mechanic would see and hear, from memory: a horn with two ohm in its ground is weak or silent, a
// blown fuse is seen in its window, a bulb at half of its voltage is all but dark.
TEST_CASE("Signs are what anybody would see and hear") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    const Dictionary dictionary =
        dictionary_of(circuit, {.states = {"ready", "sounding"},
                                .faults = possible(circuit, {"blown:F7", "open:P3", "high-resistance:E3=0.8",
                                                             "short:P3=0.05", "stuck-closed:K2"})});
    CHECK(sign(dictionary, 0, 0, "P3") == Sign::none);
    CHECK(sign(dictionary, 1, 0, "P3") == Sign::works);
    CHECK(sign(dictionary, 1, 0, "F7") == Sign::none);
    CHECK(sign(dictionary, 1, 1, "F7") == Sign::blown);
    CHECK(sign(dictionary, 1, 1, "P4") == Sign::none);
    CHECK(sign(dictionary, 1, 2, "P3") == Sign::none);
    CHECK(sign(dictionary, 1, 2, "P4") == Sign::works);
    CHECK(sign(dictionary, 1, 3, "P4") == Sign::weak);
    CHECK(sign(dictionary, 1, 4, "F7") == Sign::blown);
    CHECK(sign(dictionary, 0, 4, "F7") == Sign::none);
    CHECK(sign(dictionary, 0, 5, "P3") == Sign::works);
}

TEST_CASE("The dictionary made anew does not depend on the number of threads, and tells how far it is") {
    const model::Circuit circuit = test::circuit_file("circuits/rear-window-heater.circuit.xml");
    std::vector<diagnosis::PossibleFault> faults = diagnosis::fault_universe(circuit);
    faults.resize(12);
    diagnosis::DictionaryOptions options{.states = {circuit.states[0].id}, .faults = faults, .threads = 1};
    int told = 0;
    const auto one = diagnosis::dictionary_anew(
        circuit, options, [&](const diagnosis::DictionaryProgress& now) { told = now.done; });
    options.threads = 3;
    const auto three = diagnosis::dictionary_anew(circuit, options);
    REQUIRE(one);
    REQUIRE(three);
    CHECK(told == 13);
    CHECK(one->values == three->values);
    CHECK(one->told == three->told);
}

TEST_CASE("A state that does not exist is an error that suggests the one meant") {
    const model::Circuit circuit = test::circuit_file("circuits/horn.circuit.xml");
    const auto made = diagnosis::dictionary_anew(circuit, {.states = {"soundin"}});
    REQUIRE_FALSE(made);
    CHECK(made.error().front().message.find("sounding") != std::string::npos);
}
