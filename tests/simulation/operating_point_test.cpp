#include <catch2/catch.hpp>

#include <cmath>

#include "tests/support/circuit_text.h"

using namespace halfsplit;
using test::amperes_in;
using test::circuit_of;
using test::condition_of;
using test::settled;
using test::volts_at;

namespace {

const std::string kBattery =
    "<battery id='G1' plug='none' open-circuit-v='12' internal-ohm='0.01'/><ground-point id='E1' ohm='0'/>";
const std::string kIdealGround = "<wire id='W0' from='G1.-' to='E1' ohm='0'/>";

std::string ideal_switch(const std::string& id) {
    return "<switch id='" + id +
           "' plug='none'><pin id='1'/><pin id='2'/><position id='off'/><position id='on'><contact from='1' "
           "to='2'/></position></switch>";
}

}  // namespace

TEST_CASE("A relay pulls in, feeds its load and changes its resting contact over") {
    const auto circuit =
        circuit_of(kBattery + ideal_switch("S1") +
                       "<relay id='K1' plug='none' suppression='none'/><lamp id='H1' plug='none' "
                       "rated-w='21'/><lamp id='H2' plug='none' rated-w='5'/>",
                   kIdealGround +
                       "<wire id='W1' from='G1.+' to='S1.1' ohm='1e-3'/><wire id='W2' from='S1.2' to='K1.86' "
                       "ohm='1e-3'/><wire id='W3' from='K1.85' to='E1' ohm='1e-3'/>"
                       "<wire id='W4' from='G1.+' to='K1.30' ohm='1e-3'/><wire id='W5' from='K1.87' "
                       "to='H1.1' ohm='1e-3'/><wire id='W6' from='H1.2' to='E1' ohm='1e-3'/>"
                       "<wire id='W7' from='K1.87a' to='H2.1' ohm='1e-3'/><wire id='W8' from='H2.2' to='E1' "
                       "ohm='1e-3'/>");
    const auto rest = settled(circuit);
    CHECK(condition_of(circuit, rest, "K1") == "at-rest");
    CHECK(std::abs(amperes_in(rest, "W5")) < 1e-6);
    CHECK(amperes_in(rest, "W7") == Approx(5.0 / 12).epsilon(0.01));
    const auto pulled = settled(circuit, {"S1=on"});
    CHECK(condition_of(circuit, pulled, "K1") == "energised");
    CHECK(amperes_in(pulled, "K1.coil") == Approx(12.0 / 85).epsilon(0.01));
    CHECK(amperes_in(pulled, "W5") == Approx(21.0 / 12).epsilon(0.02));
    CHECK(std::abs(amperes_in(pulled, "W7")) < 1e-6);
    const auto stuck = settled(circuit, {"S1=on"}, {"stuck-open:K1"});
    CHECK(condition_of(circuit, stuck, "K1") == "at-rest");
    CHECK(amperes_in(stuck, "K1.coil") == Approx(12.0 / 85).epsilon(0.01));
}

TEST_CASE("A relay keeps what it has between drop-out and pull-in") {
    const auto circuit = circuit_of(
        "<battery id='G1' plug='none' open-circuit-v='12' internal-ohm='0.01'/><ground-point id='E1' "
        "ohm='0'/>"
        "<variable-resistor id='R1' ohm='200' quantity='knob' plug='none'/><relay id='K1' coil-ohm='100' "
        "pull-in-v='7' drop-out-v='3' suppression='none' plug='none'/>",
        kIdealGround +
            "<wire id='W1' from='G1.+' to='R1.1' ohm='1e-3'/><wire id='W2' from='R1.2' to='K1.86' "
            "ohm='1e-3'/><wire id='W3' from='K1.85' to='E1' ohm='1e-3'/>",
        "<quantity id='knob' title='Knob' unit='%' min='0' max='100' value='100'/>");
    CHECK(condition_of(circuit, settled(circuit), "K1") == "at-rest");                // 4 V: never pulled in
    CHECK(condition_of(circuit, settled(circuit, {"knob=0"}), "K1") == "energised");  // 12 V
    CHECK(condition_of(circuit, settled(circuit, {"knob=0", "knob=100"}), "K1") ==
          "energised");  // 4 V again: holds
}

// A relay whose coil is fed through its own resting contact is a buzzer: the oldest circuit of its kind.
TEST_CASE("A relay that opens its own feed is reported as chattering, by name") {
    const auto circuit =
        circuit_of(kBattery + "<relay id='K7' plug='none' suppression='none'/>",
                   kIdealGround +
                       "<wire id='W1' from='G1.+' to='K7.30' ohm='1e-3'/><wire id='W2' from='K7.87a' "
                       "to='K7.86' ohm='1e-3'/><wire id='W3' from='K7.85' to='E1' ohm='1e-3'/>");
    const auto result = simulation::settle(circuit, {}, {});
    REQUIRE_FALSE(result);
    CHECK(result.error().front().message.find("K7 keeps switching") != std::string::npos);
}

TEST_CASE("Two relays that lock each other out come to rest with one of them energised") {
    const auto circuit = circuit_of(
        kBattery +
            "<relay id='K1' plug='none' suppression='none'/><relay id='K2' plug='none' suppression='none'/>",
        kIdealGround +
            "<wire id='W1' from='G1.+' to='K1.30' ohm='1e-3'/><wire id='W2' from='G1.+' to='K2.30' "
            "ohm='1e-3'/>"
            "<wire id='W3' from='K1.87a' to='K2.86' ohm='1e-3'/><wire id='W4' from='K2.87a' to='K1.86' "
            "ohm='1e-3'/>"
            "<wire id='W5' from='K1.85' to='E1' ohm='1e-3'/><wire id='W6' from='K2.85' to='E1' ohm='1e-3'/>");
    const auto state = settled(circuit);
    CHECK((condition_of(circuit, state, "K1") == "energised") !=
          (condition_of(circuit, state, "K2") == "energised"));
}

TEST_CASE("Of two fuses in series only the smaller blows on a short, and a sound load blows none") {
    const auto circuit =
        circuit_of(kBattery +
                       "<fuse id='F1' rating-a='60' plug='none'/><fuse id='F2' rating-a='10' "
                       "plug='none'/><lamp id='H1' rated-w='60' plug='none'/>",
                   kIdealGround +
                       "<wire id='W1' from='G1.+' to='F1.1' area-mm2='6' length-m='0.5'/><wire "
                       "id='W2' from='F1.2' to='F2.1' area-mm2='4' length-m='0.5'/>"
                       "<wire id='W3' from='F2.2' to='H1.1' area-mm2='1' length-m='2'/><wire "
                       "id='W4' from='H1.2' to='E1' area-mm2='1' length-m='1'/>");
    const auto sound = settled(circuit);
    CHECK(condition_of(circuit, sound, "F1") == "intact");
    CHECK(condition_of(circuit, sound, "F2") == "intact");
    const auto shorted = settled(circuit, {}, {"short-to-ground:W3"});
    CHECK(condition_of(circuit, shorted, "F1") == "intact");
    CHECK(condition_of(circuit, shorted, "F2") == "blown");
    CHECK(volts_at(shorted, "F2.1") == Approx(12).margin(0.01));
    CHECK(std::abs(volts_at(shorted, "F2.2")) < 1e-6);
}

TEST_CASE("A thermo-switch follows its quantity with hysteresis") {
    const auto circuit =
        circuit_of(kBattery +
                       "<thermo-switch id='S1' quantity='coolant' closes-at-degc='92' opens-at-degc='87' "
                       "plug='none'/><lamp id='H1' rated-w='5' plug='none'/>",
                   kIdealGround +
                       "<wire id='W1' from='G1.+' to='S1.1' ohm='1e-3'/><wire id='W2' from='S1.2' to='H1.1' "
                       "ohm='1e-3'/><wire id='W3' from='H1.2' to='E1' ohm='1e-3'/>",
                   "<quantity id='coolant' title='Coolant' unit='degC' min='-30' max='130' value='20'/>");
    CHECK(condition_of(circuit, settled(circuit), "S1") == "open");
    CHECK(condition_of(circuit, settled(circuit, {"coolant=90"}), "S1") == "open");
    CHECK(condition_of(circuit, settled(circuit, {"coolant=95"}), "S1") == "closed");
    CHECK(condition_of(circuit, settled(circuit, {"coolant=95", "coolant=90"}), "S1") == "closed");
    CHECK(condition_of(circuit, settled(circuit, {"coolant=95", "coolant=85"}), "S1") == "open");
}

TEST_CASE("What cannot be set is refused with what could have been meant") {
    const auto circuit = circuit_of(kBattery + ideal_switch("S1"),
                                    kIdealGround + "<wire id='W1' from='G1.+' to='S1.1' ohm='1e-3'/>");
    const auto refused = [&](const std::string& what, const std::string& to) {
        const std::vector<model::StateStep> steps{model::SetStep{what, to, {}}};
        const auto result = simulation::settle(circuit, {}, steps);
        REQUIRE_FALSE(result);
        return result.error().front().message;
    };
    CHECK(refused("S2", "on").find("did you mean S1") != std::string::npos);
    CHECK(refused("S1", "onn").find("expected off or on") != std::string::npos);
    CHECK(refused("G1", "on").find("cannot be set") != std::string::npos);
}
