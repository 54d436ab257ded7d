#include <catch2/catch.hpp>

#include <cmath>

#include "tests/support/circuit_text.h"

using namespace halfsplit;
using test::amperes_in;
using test::circuit_of;
using test::settled;
using test::volts_at;

namespace {

// Each wire 0.1 ohm, each plug contact 0.01 ohm, a 12 V battery of 0.01 ohm: round numbers to work by hand.
model::Circuit lamp_circuit() {
    return circuit_of(
        "<battery id='G1' plug='none' open-circuit-v='12' internal-ohm='0.01'/><fuse id='F1' rating-a='10' "
        "ohm='0.01' contact-ohm='0.01'/>"
        "<switch id='S1' switch-ohm='0.01' contact-ohm='0.01'><pin id='1'/><pin id='2'/><position "
        "id='off'/><position id='on'><contact from='1' to='2'/></position></switch>"
        "<coupling id='X1' pins='3' contact-ohm='0.01'/><resistor id='R1' ohm='5.8' "
        "contact-ohm='0.01'/><resistor id='R2' ohm='58' contact-ohm='0.01'/><ground-point id='E1' "
        "ohm='0.01'/>",
        "<wire id='W0' from='G1.-' to='E1' ohm='0.1'/><wire id='W1' from='G1.+' to='F1.1' ohm='0.1'/><wire "
        "id='W2' from='F1.2' to='S1.1' ohm='0.1'/>"
        "<wire id='W3' from='S1.2' to='X1.1a' ohm='0.1'/><wire id='W4' from='X1.1b' to='R1.1' "
        "ohm='0.1'/><wire id='W5' from='R1.2' to='E1' ohm='0.1'/>"
        "<wire id='W6' from='F1.2' to='X1.2a' ohm='0.1'/><wire id='W7' from='X1.2b' to='R2.1' "
        "ohm='0.1'/><wire id='W8' from='R2.2' to='E1' ohm='0.1'/>",
        "<quantity id='vibration' title='Vibration' unit='g' min='0' max='1' value='0'/>");
}

/// Current that R1 takes with the switch on and these faults.
double r1_a(const model::Circuit& circuit, const std::vector<std::string>& faults,
            std::vector<std::string> sets = {"S1=on"}) {
    return amperes_in(settled(circuit, sets, faults), "R1.resistance");
}

/// The message a specification is refused with.
std::string refused(const model::Circuit& circuit, const std::string& text) {
    const auto fault = network::parse_fault(circuit, text);
    return fault ? "accepted" : fault.error();
}

}  // namespace

// Worked by hand with series and parallel resistances. Shared by both loads: battery 0.01, W0 and W1 0.1
// each, fuse and its two contacts 0.03, together 0.24 ohm. R1's own path: W2 to W5 0.4,
// five plug contacts 0.05, the switch 0.01 and 5.8: 6.26 ohm. R2's own path: W6 to W8 0.3, three plug
// contacts 0.03 and 58: 58.33 ohm.
double expected_r1_a(double added_ohm) {
    const double path_1 = 6.26 + added_ohm;
    const double path_2 = 58.33;
    const double total_a = 12 / (0.24 + path_1 * path_2 / (path_1 + path_2));
    return total_a * path_2 / (path_1 + path_2);
}

TEST_CASE("Every fault of wires and plug contacts does to the current what Ohm's law says") {
    const auto circuit = lamp_circuit();
    const double sound_a = r1_a(circuit, {});
    CHECK(sound_a == Approx(expected_r1_a(0)).epsilon(1e-6));
    for (const char* cut :
         {"open:W4", "open:W2", "open:R1", "open:R1.1", "backed-out:R1.2", "open:X1.1", "unplugged:R1",
          "unplugged:X1", "unplugged:F1", "blown:F1", "stuck-open:S1", "open:W0"}) {
        INFO(cut);
        CHECK(std::abs(r1_a(circuit, {cut})) < 1e-6);
    }
    for (const char* bad : {"high-resistance:W4=6", "high-resistance:R1.1=6", "high-resistance:X1.1=6",
                            "contact-resistance:S1=6", "high-resistance:W5=6"}) {
        INFO(bad);
        CHECK(r1_a(circuit, {bad}) == Approx(expected_r1_a(6)).epsilon(1e-6));
    }
    CHECK(r1_a(circuit, {"drift:R1=2"}) == Approx(expected_r1_a(5.8)).epsilon(1e-6));
    CHECK(r1_a(circuit, {"stuck-closed:S1"}, {}) == Approx(sound_a).epsilon(1e-9));
    CHECK(r1_a(circuit, {"high-resistance:W3=3", "high-resistance:W5=3"}) ==
          Approx(expected_r1_a(6)).epsilon(1e-6));
}

// All grounds and the battery's minus are bolted together there, so they stay joined when the bolt lets go of
// the body.
TEST_CASE("A ground point that lets go of the body keeps its wires joined") {
    const auto circuit = lamp_circuit();
    CHECK(r1_a(circuit, {"open:E1"}) == Approx(expected_r1_a(0)).epsilon(1e-6));
}

TEST_CASE("Shorts give current another way") {
    const auto circuit = lamp_circuit();
    CHECK(test::condition_of(circuit, settled(circuit, {"S1=on"}, {"short-to-ground:W3"}), "F1") == "blown");
    CHECK(r1_a(circuit, {"short-to-supply:W4"}, {}) == Approx(12 / 6.2).epsilon(0.03));
    CHECK(r1_a(circuit, {"short-between:W4+W7"}, {}) == Approx(12 / 6.3).epsilon(0.06));
    CHECK(r1_a(circuit, {"wet:X1.1=100"}, {}) == Approx(12 / 106.0).epsilon(0.03));
    // Exchanged contacts: the switch now feeds R2, and R1 hangs on the permanent feed.
    const auto swapped = settled(circuit, {}, {"swapped:X1.1+X1.2"});
    CHECK(amperes_in(swapped, "R1.resistance") == Approx(1.8).epsilon(0.05));
    CHECK(std::abs(amperes_in(swapped, "R2.resistance")) < 1e-6);
}

TEST_CASE("A chafed wire fails only while the world shakes it") {
    const auto circuit = lamp_circuit();
    const std::vector<std::string> fault{"chafed:W4=open@vibration:0.5..1"};
    CHECK(r1_a(circuit, fault) == Approx(r1_a(circuit, {})).epsilon(1e-9));
    CHECK(std::abs(r1_a(circuit, fault, {"S1=on", "vibration=0.7"})) < 1e-6);
    CHECK(test::condition_of(
              circuit, settled(circuit, {"S1=on", "vibration=0.7"}, {"chafed:W3=short@vibration:0.5..1"}),
              "F1") == "blown");
}

TEST_CASE("A fault is written one way and read back the same") {
    const auto circuit = lamp_circuit();
    for (const char* text : {"open:W4", "open:R1", "open:R1.1", "high-resistance:X1.1=6", "swapped:X1.1+X1.2",
                             "short-between:W4+W7=0.2", "unplugged:X1", "chafed:W4=open@vibration:0.5..1"}) {
        const auto fault = network::parse_fault(circuit, text);
        REQUIRE(fault);
        CHECK(fault->text == text);
    }
    const auto only_contact = network::parse_fault(circuit, "stuck-open:S1");
    REQUIRE(only_contact);
    CHECK(only_contact->text == "stuck-open:S1.1-2");
}

TEST_CASE("A fault that cannot be is refused with what was expected") {
    const auto circuit = lamp_circuit();
    CHECK(refused(circuit, "open").find("KIND:WHERE") != std::string::npos);
    CHECK(refused(circuit, "open:W44").find("did you mean W4") != std::string::npos);
    CHECK(refused(circuit, "opne:W4").find("did you mean open") != std::string::npos);
    CHECK(refused(circuit, "blown:R1").find("has no fault 'blown'") != std::string::npos);
    CHECK(refused(circuit, "high-resistance:W4=1,5").find("decimals take a point") != std::string::npos);
    CHECK(refused(circuit, "high-resistance:W4=-1").find("out of range") != std::string::npos);
    CHECK(refused(circuit, "open:W4=3").find("takes no value") != std::string::npos);
    CHECK(refused(circuit, "swapped:X1.1").find("joins two") != std::string::npos);
    CHECK(refused(circuit, "swapped:X1.1+X1.1").find("twice") != std::string::npos);
    CHECK(refused(circuit, "swapped:X1.1+R1.1").find("one plug") != std::string::npos);
    CHECK(refused(circuit, "short-between:W4+R1").find("has no fault") != std::string::npos);
    CHECK(refused(circuit, "open:W4+W5").find("one place") != std::string::npos);
    CHECK(refused(circuit, "chafed:W4").find("needs to know when") != std::string::npos);
    CHECK(refused(circuit, "chafed:W4=open@shaking:0.5..1").find("no quantity 'shaking'") !=
          std::string::npos);
    CHECK(refused(circuit, "chafed:W4=ajar@vibration:0.5..1").find("expected open@QUANTITY") !=
          std::string::npos);
    CHECK(refused(circuit, "open:G1.+").find("accepted") ==
          std::string::npos);  // plug='none': no contact to fail
}

TEST_CASE("A parted plug leaves the harness side of its points live and the part's own side dead") {
    const auto circuit = lamp_circuit();
    network::Situation situation;
    situation.positions["S1"] = "on";
    situation.unplugged.insert("R1");
    const auto state = simulation::settle(circuit, situation, {});
    REQUIRE(state);
    CHECK(volts_at(*state, "R1.1") == Approx(11.95).margin(0.02));
    CHECK(std::abs(volts_at(*state, "R1.1@part")) < 1e-6);
    situation.unplugged = {"G1"};
    CHECK_FALSE(simulation::settle(circuit, situation, {}));
    situation.unplugged.clear();
    situation.pulled = {"F1"};
    CHECK(simulation::settle(circuit, situation, {}));
    situation.pulled = {"R1"};
    CHECK_FALSE(simulation::settle(circuit, situation, {}));
}
