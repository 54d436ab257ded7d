#include <catch2/catch.hpp>

#include <cmath>

#include "engine/instruments/instrument.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;
using test::circuit_of;
using test::settled;

namespace {

instruments::Reading reading(const model::Circuit& circuit, const simulation::Settled& state,
                             const std::string& instrument, const std::string& at,
                             const std::string& against = "body") {
    auto result = instruments::measure({circuit, state}, instrument, {at, against});
    if (!result) FAIL(to_text(result.error().front()));
    return std::move(*result);
}

/// Battery 12 V behind next to nothing, minus on the body, and whatever stands between its plus and the body.
std::string with_battery(const std::string& parts, double volts = 12) {
    return "<battery id='G1' plug='none' open-circuit-v='" + std::to_string(volts) +
           "' internal-ohm='0.0001'/><ground-point id='E1' ohm='0'/>" + parts;
}
std::string with_ground(const std::string& wires) {
    return "<wire id='W0' from='G1.-' to='E1' ohm='0'/>" + wires;
}

}  // namespace

// Kuphaldt, Lessons in Electric Circuits vol. I ch. 8 (figures 00156 to 00158): a 10 Mohm voltmeter on the
// lower of two 250 Mohm resistors across 24 V reads 0.8889 V where 12 V stood before.
TEST_CASE("A voltmeter loads a high-resistance divider") {
    const auto circuit = circuit_of(
        with_battery("<resistor id='R1' ohm='250e6' plug='none'/><resistor id='R2' ohm='250e6' plug='none'/>",
                     24),
        with_ground(
            "<wire id='W1' from='G1.+' to='R1.1' ohm='0'/><wire id='W2' from='R1.2' to='R2.1' ohm='0'/>"
            "<wire id='W3' from='R2.2' to='E1' ohm='0'/>"));
    const auto state = settled(circuit);
    // The network's own leakage of 1 nS a node is a quarter of those resistors; with it the book's divider
    // becomes (4 + 1 + 1) nS below 4 nS … so the check is on the meter's share, with the leakage counted in.
    const double below_s = 1 / 250e6 + 1 / 10e6 + 1e-9;
    const double above_s = 1 / 250e6;
    const double expected_v = 24 * above_s / (above_s + below_s);
    CHECK(reading(circuit, state, "voltmeter", "R2.1").value == Approx(expected_v).margin(0.001));
    CHECK(expected_v == Approx(0.8889).epsilon(0.01));
}

// Reference: 12 x 1e7/(1e7+1e4) and 12 x 48/10048, arithmetic on the input resistance of a multimeter
// (Kuphaldt vol. I ch. 8) and of a bulb (48 ohm at 12 V cold it is less, so the bulb sees less still).
TEST_CASE("Behind a corroded joint the voltmeter reads nearly full voltage and the test lamp stays dark") {
    const auto circuit = circuit_of(
        with_battery("<resistor id='R1' ohm='10000' plug='none'/><splice id='J1'/>"),
        with_ground(
            "<wire id='W1' from='G1.+' to='R1.1' ohm='0'/><wire id='W2' from='R1.2' to='J1' ohm='0'/>"));
    const auto state = settled(circuit);
    CHECK(reading(circuit, state, "voltmeter", "J1").value == Approx(11.99).margin(0.0051));
    const auto lamp = reading(circuit, state, "test-lamp", "J1");
    CHECK(lamp.shown == "dark");
    CHECK(lamp.value < 12 * 48.0 / 10048 * 0.0015);
    CHECK(reading(circuit, state, "voltmeter-low-impedance", "J1").value ==
          Approx(12 * 3000.0 / 13000).margin(0.01));
    CHECK(reading(circuit, state, "led-test-lamp", "J1").shown == "glows faintly, the tip is plus");
}

TEST_CASE("The test lamp lights on a good supply, also with its clip on the supply and its tip on ground") {
    const auto circuit = circuit_of(with_battery("<splice id='J1'/>"),
                                    with_ground("<wire id='W1' from='G1.+' to='J1' ohm='0.01'/>"));
    const auto state = settled(circuit);
    CHECK(reading(circuit, state, "test-lamp", "J1").shown == "lights brightly, 100 % of its full light");
    CHECK(reading(circuit, state, "test-lamp", "E1", "J1").shown ==
          "lights brightly, 100 % of its full light");
    CHECK(reading(circuit, state, "test-lamp", "J1").value == Approx(4.0).margin(0.02));
    CHECK(reading(circuit, state, "led-test-lamp", "E1", "J1").shown == "lights, the tip is minus");
}

// Kuphaldt vol. I ch. 8 (00169 to 00171): 2 V across 3 ohm and 1.5 ohm; a 0.5 ohm ammeter in the 3 ohm branch
// reads 571.43 mA where 666.7 mA flowed. Ours has 0.02 ohm: 2/3.02.
TEST_CASE("An ammeter's own resistance lowers the current it reads") {
    const auto circuit = circuit_of(
        with_battery("<resistor id='R1' ohm='3' plug='none'/><resistor id='R2' ohm='1.5' plug='none'/>", 2),
        with_ground(
            "<wire id='W1' from='G1.+' to='R1.1' ohm='1e-5'/><wire id='W2' from='R1.2' to='E1' ohm='0'/>"
            "<wire id='W3' from='G1.+' to='R2.1' ohm='1e-5'/><wire id='W4' from='R2.2' to='E1' ohm='0'/>"));
    const auto state = settled(circuit);
    CHECK(reading(circuit, state, "ammeter", "W1").value == Approx(2 / 3.02).margin(0.001));
    CHECK(reading(circuit, state, "clamp", "W1").value == Approx(2 / 3.0).margin(0.0051));
    CHECK_FALSE(reading(circuit, state, "milliammeter", "W1").valid);  // 2 V / 4.5 ohm blows its 0.4 A fuse
}

TEST_CASE("Too much current blows the ammeter's fuse and the jumper's, and the reading says so") {
    const auto circuit = circuit_of(with_battery("<resistor id='R1' ohm='0.5' plug='none'/>"),
                                    with_ground("<wire id='W1' from='G1.+' to='R1.1' ohm='1e-3'/><wire "
                                                "id='W2' from='R1.2' to='E1' ohm='1e-3'/>"));
    const auto state = settled(circuit);
    const auto amperes = reading(circuit, state, "ammeter", "W1");
    CHECK_FALSE(amperes.valid);
    CHECK(amperes.cautions.size() == 1);
    const auto jumper = reading(circuit, state, "jumper", "G1.+", "E1");
    CHECK_FALSE(jumper.valid);
    CHECK(jumper.shown == "its fuse has blown");
    CHECK(reading(circuit, state, "clamp", "W1").value == Approx(12 / 0.5021).margin(0.006));
}

TEST_CASE("A jumper feeds what is cut off") {
    const auto circuit = circuit_of(
        with_battery("<lamp id='H1' rated-w='5' plug='none'/>"),
        with_ground(
            "<wire id='W1' from='G1.+' to='H1.1' ohm='0.01'/><wire id='W2' from='H1.2' to='E1' ohm='0'/>"));
    const auto state = settled(circuit, {}, {"open:W1"});
    CHECK(reading(circuit, state, "jumper", "G1.+", "H1.1").value == Approx(5.0 / 12).margin(0.006));
}

TEST_CASE("The ohmmeter reads a dead circuit with all its parallel paths, and refuses a live one") {
    const auto parts = with_battery(
        "<resistor id='R1' ohm='100' plug='none'/><resistor id='R2' ohm='300' plug='none'/>"
        "<switch id='S1' switch-ohm='0.01' plug='none'><pin id='1'/><pin id='2'/><position id='off'/>"
        "<position id='on'><contact from='1' to='2'/></position></switch>");
    const auto circuit = circuit_of(
        parts,
        with_ground(
            "<wire id='W1' from='G1.+' to='S1.1' ohm='1e-3'/><wire id='W2' from='S1.2' to='R1.1' ohm='1e-3'/>"
            "<wire id='W3' from='R1.2' to='E1' ohm='0'/><wire id='W4' from='R1.1' to='R2.1' ohm='0'/>"
            "<wire id='W5' from='R2.2' to='E1' ohm='0'/>"));
    CHECK(reading(circuit, settled(circuit), "ohmmeter", "R1.1").value == Approx(75).margin(0.06));
    CHECK(reading(circuit, settled(circuit, {}, {"open:R2"}), "ohmmeter", "R1.1").value ==
          Approx(100).margin(0.06));
    const auto live = reading(circuit, settled(circuit, {"S1=on"}), "ohmmeter", "R1.1");
    CHECK_FALSE(live.valid);
    CHECK(live.cautions.size() == 1);
    CHECK(reading(circuit, settled(circuit, {}, {"open:R1", "open:R2"}), "ohmmeter", "R1.1").shown ==
          "beyond range");
}

TEST_CASE("Millivolts across a fuse give its current away without parting anything") {
    const auto circuit = circuit_of(
        with_battery("<fuse id='F1' rating-a='10' ohm='0.0077'/><resistor id='R1' ohm='2.4' plug='none'/>"),
        with_ground(
            "<wire id='W1' from='G1.+' to='F1.1' ohm='1e-3'/><wire id='W2' from='F1.2' to='R1.1' ohm='1e-3'/>"
            "<wire id='W3' from='R1.2' to='E1' ohm='0'/>"));
    const auto state = settled(circuit);
    const double expected_v = 0.0077 * test::amperes_in(state, "W1");
    CHECK(reading(circuit, state, "fuse-millivolts", "F1").value == Approx(expected_v).margin(0.00006));
    CHECK(reading(circuit, settled(circuit, {}, {"blown:F1"}), "fuse-millivolts", "F1").cautions.size() == 1);
}

TEST_CASE("A point that nothing drives is named as such") {
    const auto circuit = circuit_of(with_battery("<splice id='J1'/><splice id='J2'/>"),
                                    with_ground("<wire id='W1' from='J1' to='J2' ohm='0.01'/>"));
    const auto stray = reading(circuit, settled(circuit), "voltmeter", "J1");
    CHECK(stray.value == 0);
    REQUIRE(stray.cautions.size() == 1);
    CHECK(stray.cautions.front().find("nothing drives J1") != std::string::npos);
}

TEST_CASE("A reading carries limits that hold what is really there") {
    const auto circuit = circuit_of(
        with_battery("<resistor id='R1' ohm='1000' plug='none'/><resistor id='R2' ohm='2345' plug='none'/>"),
        with_ground(
            "<wire id='W1' from='G1.+' to='R1.1' ohm='0'/><wire id='W2' from='R1.2' to='R2.1' ohm='0'/>"
            "<wire id='W3' from='R2.2' to='E1' ohm='0'/>"));
    const auto volts = reading(circuit, settled(circuit), "voltmeter", "R2.1");
    const double really_v = 12 * 2345.0 / 3345.0;
    CHECK(volts.low < really_v);
    CHECK(volts.high > really_v);
    CHECK(volts.shown == "8.41 V");
}

TEST_CASE("Leads that go nowhere are refused with the near name") {
    const auto circuit = circuit_of(with_battery("<lamp id='H1' rated-w='5'/>"),
                                    with_ground("<wire id='W1' from='G1.+' to='H1.1' ohm='0.01'/>"));
    const auto state = settled(circuit);
    const auto wrong_point = instruments::measure({circuit, state}, "voltmeter", {"H1.3", "body"});
    REQUIRE_FALSE(wrong_point);
    CHECK(wrong_point.error().front().message.find("did you mean H1.1") != std::string::npos);
    const auto wrong_instrument = instruments::measure({circuit, state}, "voltmetre", {"H1.1", "body"});
    REQUIRE_FALSE(wrong_instrument);
    CHECK(wrong_instrument.error().front().message.find("did you mean voltmeter") != std::string::npos);
    CHECK_FALSE(instruments::measure({circuit, state}, "ammeter", {"H1", "body"}));
    CHECK_FALSE(instruments::measure({circuit, state}, "fuse-millivolts", {"H1", "body"}));
    CHECK_FALSE(instruments::measure({circuit, state}, "voltmeter", {"H1.1", "H1.1"}));
}
