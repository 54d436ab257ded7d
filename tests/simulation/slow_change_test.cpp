#include <catch2/catch.hpp>

#include <cmath>

#include "engine/simulation/course.h"
#include "tests/support/circuit_text.h"

using namespace halfsplit;

namespace {

/// A part between a stiff 12 V supply and ground, or in a circuit of the test's own.
simulation::Course course_of(const model::Circuit& circuit, const std::vector<std::string>& sets = {}) {
    const simulation::Settled settled = test::settled(circuit, sets);
    auto course = simulation::Course::begin(circuit, settled, {});
    REQUIRE(course);
    return std::move(*course);
}

double amperes(const simulation::Course& course, const std::string& name) {
    double current_a = 0;
    for (std::size_t i = 0; i < course.network().branches.size(); ++i)
        if (course.network().branches[i].name == name) current_a += course.current_a(static_cast<int>(i));
    return current_a;
}

double volts(const simulation::Course& course, const std::string& point) {
    return course.potential_v(course.network().point_nodes.find(point)->second);
}

void run(simulation::Course& course, double until_s) {
    REQUIRE(course.run_until(until_s));
}

/// dx/dt = f(x) from 0, by the classical Runge-Kutta method in far shorter steps than a course takes.
template <class Rate>
double integrated(const Rate& rate, double until_s) {
    constexpr int kSteps = 20000;
    const double h = until_s / kSteps;
    double x = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double a = rate(x);
        const double b = rate(x + h / 2 * a);
        const double c = rate(x + h / 2 * b);
        const double d = rate(x + h * c);
        x += h / 6 * (a + 2 * b + 2 * c + d);
    }
    return x;
}

/// A battery so stiff, full and large that it stands for a voltage source.
constexpr const char* kStiff =
    R"(<battery id="G1" open-circuit-v="12" internal-ohm="0.0001" capacity-ah="1000" plug="none"/>
       <ground-point id="E1"/>)";

}  // namespace

// Copper: 0.393 % a kelvin at 20 degC (IEC 60028). The heat balance C dT/dt = V^2 / R(T) - T / Rth integrated
// by another method.
TEST_CASE("A coil warms up by its own current, draws less, and needs more voltage to pull in") {
    const model::Circuit circuit = test::circuit_of(
        std::string(kStiff) + R"(<relay id="K1" coil-ohm="60" coil-warms-k="90" contact-ohm="0.000001"/>)",
        R"(<wire id="W1" from="G1.+" to="K1.86" ohm="0.00001"/>
           <wire id="W2" from="K1.85" to="E1" ohm="0.00001"/>
           <wire id="W3" from="G1.-" to="E1" ohm="0.00001"/>)");
    simulation::Course course = course_of(circuit);
    CHECK(amperes(course, "K1.coil") == Approx(12.0 / 60).epsilon(1e-3));
    const double rise_per_w = 90 / (12.0 * 12.0 / 60);
    const auto rate = [&](double x) {
        const double watt = 12.0 * 12.0 / (60 * (1 + 0.00393 * x));
        return (rise_per_w * watt - x) / 300;
    };
    for (const double at_s : {60.0, 300.0, 3000.0}) {
        run(course, at_s);
        const double expected_a = 12.0 / (60 * (1 + 0.00393 * integrated(rate, at_s)));
        INFO("after " << at_s << " s");
        CHECK(amperes(course, "K1.coil") == Approx(expected_a).epsilon(1e-3));
    }
}

// The same for a motor that stands blocked, then is free: both windings are one piece of copper.
TEST_CASE("A blocked motor warms up, and is still warm when it turns again") {
    const model::Circuit circuit = test::circuit_of(
        std::string(kStiff) +
            R"(<motor id="M1" armature-ohm="1" no-load-a="1" load-a="2" blocked-warms-k-per-s="2" cools-s="100"
                contact-ohm="0.000001"/>)",
        R"(<wire id="W1" from="G1.+" to="M1.1" ohm="0.00001"/>
           <wire id="W2" from="M1.2" to="E1" ohm="0.00001"/>
           <wire id="W3" from="G1.-" to="E1" ohm="0.00001"/>)");
    simulation::Course course = course_of(circuit, {"M1=stalled"});
    const double rise_per_w = 2 * 100 / (12.0 * 12.0 / 1);
    const auto blocked = [&](double x) { return (rise_per_w * 12.0 * 12.0 / (1 + 0.00393 * x) - x) / 100; };
    CHECK(amperes(course, "M1.armature") == Approx(12).epsilon(1e-3));
    run(course, 10);
    CHECK(amperes(course, "M1.armature") ==
          Approx(12 / (1 + 0.00393 * integrated(blocked, 10))).epsilon(1e-3));
    run(course, 40);
    const double warm_ohm = 1 + 0.00393 * integrated(blocked, 40);
    CHECK(amperes(course, "M1.armature") == Approx(12 / warm_ohm).epsilon(1e-3));
    REQUIRE(course.set("M1", "running"));
    run(course, 40.001);
    // At this moment it does not turn yet: its current is still that of a blocked motor, and as warm.
    CHECK(amperes(course, "M1.armature") == Approx(12 / warm_ohm).epsilon(0.03));
    run(course, 42);
    // At speed the load line of the cold motor holds: 1 A + (2 A - 1 A) back-EMF / 10 V, with V = R i +
    // back-EMF.
    const double turning_ohm = 1 + 0.00393 * (integrated(blocked, 40) - 2);  // it has cooled by some 2 K
    const double emf_v = (12 - turning_ohm) / (1 + turning_ohm / 10);
    CHECK(amperes(course, "M1.armature") == Approx(1 + emf_v / 10).epsilon(2e-3));
}

// The balance of a thermistor at rest, as data sheets explain it: V^2 / R(T) = delta (T - T_air), with the B
// equation for R(T); solved here by bisection.
TEST_CASE("A thermistor reads too warm by what its own current heats it") {
    const model::Circuit circuit = test::circuit_of(
        std::string(kStiff) + R"(<ntc-thermistor id="R1" ohm-25="1000" b-k="3500" dissipation-mw-per-k="6"
                                  thermal-s="12" contact-ohm="0.000001"/>
                                 <resistor id="R2" ohm="1000" contact-ohm="0.000001"/>)",
        R"(<wire id="W1" from="G1.+" to="R2.1" ohm="0.00001"/>
           <wire id="W2" from="R2.2" to="R1.1" ohm="0.00001"/>
           <wire id="W4" from="R1.2" to="E1" ohm="0.00001"/>
           <wire id="W3" from="G1.-" to="E1" ohm="0.00001"/>)",
        R"(<quantity id="ambient" title="Ambient" unit="degC" min="-30" max="80" value="25"/>)");
    simulation::Course course = course_of(circuit);
    CHECK(volts(course, "R1.1") == Approx(6).epsilon(1e-3));
    run(course, 200);
    const auto ohm_at = [](double rise_k) {
        return 1000 * std::exp(3500 * (1 / (298.15 + rise_k) - 1 / 298.15));
    };
    double low = 0;
    double high = 50;
    for (int i = 0; i < 60; ++i) {
        const double rise_k = (low + high) / 2;
        const double current_a = 12 / (1000 + ohm_at(rise_k));
        (current_a * current_a * ohm_at(rise_k) > 0.006 * rise_k ? low : high) = rise_k;
    }
    CHECK(low > 4);  // worth knowing: 36 mW at 6 mW/K
    CHECK(volts(course, "R1.1") == Approx(12 * ohm_at(low) / (1000 + ohm_at(low))).epsilon(1e-3));
}

// No outside source: what an author or a fault may bring about must not end in an absurd law.
TEST_CASE("A thermistor at absolute zero, or straight on a battery, stays a resistance") {
    const model::Circuit circuit = test::circuit_of(
        std::string(kStiff) + R"(<ntc-thermistor id="R1" ohm-25="100"/>)",
        R"(<wire id="W1" from="G1.+" to="R1.1" ohm="0.01"/>
           <wire id="W4" from="R1.2" to="E1" ohm="0.01"/>
           <wire id="W3" from="G1.-" to="E1" ohm="0.00001"/>)",
        R"(<quantity id="ambient" title="Ambient" unit="degC" min="-300" max="80" value="20"/>)");
    simulation::Course cold = course_of(circuit, {"ambient=-273.15"});
    run(cold, 10);
    CHECK(amperes(cold, "R1.resistance") < 1e-3);
    simulation::Course hot = course_of(circuit);
    run(hot, 30);
    // At the 400 degC it is held to: 100 ohm exp(3950 K (1 / 673.15 K - 1 / 298.15 K)) and the wires.
    const double ohm = 100 * std::exp(3950 * (1 / 673.15 - 1 / 298.15)) + 0.02 + 0.004 + 0.0001;
    CHECK(amperes(hot, "R1.resistance") == Approx(12 / ohm).epsilon(0.02));
}

// A 70 Ah battery gives 3.5 A for 20 h (Kuphaldt, Lessons in Electric Circuits I, ch. 11). Rested voltages of
// a flooded battery at 25 degC as a page of yic-electronics.com has them: 12.65, 12.45, 12.24, 12.06, 11.89 V
// at 100, 75, 50, 25, 0 %; sources scatter by 0.1 V.
TEST_CASE("A battery runs down over twenty hours, along the rested voltages of tables") {
    const model::Circuit circuit = test::circuit_of(
        R"(<battery id="G1" open-circuit-v="12.65" internal-ohm="0.0001" capacity-ah="70" plug="none"/>
           <ground-point id="E1"/><resistor id="R1" ohm="3.5" contact-ohm="0.000001"/>)",
        R"(<wire id="W1" from="G1.+" to="R1.1" ohm="0.00001"/>
           <wire id="W2" from="R1.2" to="E1" ohm="0.00001"/>
           <wire id="W3" from="G1.-" to="E1" ohm="0.00001"/>)");
    simulation::Course course = course_of(circuit);
    const double hours_at_12_v = 70 / (12.27 / 3.5);
    const std::vector<double> table{12.65, 12.45, 12.24, 12.06, 11.89};
    for (std::size_t quarter = 0; quarter < table.size(); ++quarter) {
        run(course, 3600 * hours_at_12_v * static_cast<double>(quarter) / 4);
        INFO(100 - 25 * quarter << " % left");
        CHECK(std::abs(volts(course, "G1.+") - table[quarter]) < 0.1);
    }
    CHECK(hours_at_12_v == Approx(20).epsilon(0.01));
    run(course, 3600 * 21.5);
    CHECK(volts(course, "G1.+") < 10.5);  // flat (common practice: below 10.5 V nothing is left)
}

TEST_CASE("Charging fills a battery up and no further") {
    const model::Circuit circuit = test::circuit_of(
        R"(<battery id="G1" open-circuit-v="12.2" internal-ohm="0.005" capacity-ah="2" plug="none"/>
           <battery id="G2" open-circuit-v="14.2" internal-ohm="0.005" capacity-ah="1000" plug="none"/>
           <ground-point id="E1"/>)",
        R"(<wire id="W1" from="G1.+" to="G2.+" ohm="0.05"/>
           <wire id="W2" from="G1.-" to="E1" ohm="0.001"/>
           <wire id="W3" from="G2.-" to="E1" ohm="0.001"/>)");
    simulation::Course course = course_of(circuit);
    const double at_first_a = -amperes(course, "G2.cell");
    CHECK(at_first_a == Approx((14.2 - 12.2) / (0.25 + 0.05 + 0.001 + 0.001 + 0.005)).epsilon(0.01));
    // Full it stands at 12.65 V behind its charging resistance, hour after hour.
    for (const double hours : {4.0, 8.0}) {
        run(course, hours * 3600);
        const double across_v = volts(course, "G1.+") - volts(course, "G1.-");
        CHECK(across_v - 0.25 * amperes(course, "G1.cell") == Approx(12.65).epsilon(1e-3));
        CHECK(amperes(course, "G1.cell") > 4);
    }
}
