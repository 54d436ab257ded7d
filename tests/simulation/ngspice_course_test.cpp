// The integrator, stepped by its own estimate of the error, against ngspice 39 at far tighter tolerances:
// other code, other method (tests/support/ngspice_course.h).

#include <catch2/catch.hpp>

#include <cmath>
#include <iostream>
#include <sstream>

#include "tests/support/march.h"
#include "tests/support/ngspice_course.h"
#include "tests/support/random_stores.h"

using namespace halfsplit;
using network::kBody;
using test::StoringNetwork;

namespace {

struct Difference {
    double volts = 0;
    int node = 0;
    double at_s = 0;
    double own_v = 0;
    double their_v = 0;
};

/// Calls with each time of a raster, and the share of the step where it lies.
template <class Look>
void follow(const StoringNetwork& network, double until_s, double raster_s, double tolerance,
            const Look& look) {
    simulation::Integrator integrator = test::started(network, tolerance);
    test::March march(integrator);
    int next = 1;
    march.on_step = [&](double start_s, double step_s) {
        for (; next * raster_s <= start_s + step_s; ++next)
            look(integrator, next * raster_s, (next * raster_s - start_s) / step_s);
    };
    test::run_with_toggles(march, network.toggles, until_s);
}

/// At all nodes and times of a raster that avoids the moments of the toggles.
Difference worst_difference(const StoringNetwork& network, double until_s, const test::Waveforms& theirs,
                            double tolerance) {
    Difference worst;
    const double raster_s = until_s / 997;
    follow(network, until_s, raster_s, tolerance,
           [&](const simulation::Integrator& own, double time_s, double share) {
               for (int node = 0; node < network.node_count; ++node) {
                   const double own_v = own.potential_at(node, share);
                   const double their_v = theirs.at(static_cast<std::size_t>(node), time_s);
                   if (std::abs(own_v - their_v) > worst.volts)
                       worst = {std::abs(own_v - their_v), node, time_s, own_v, their_v};
               }
           });
    return worst;
}

std::string text(const Difference& worst) {
    std::ostringstream line;
    line << worst.volts << " V (n" << worst.node << " at " << worst.at_s << " s, " << worst.own_v
         << " against " << worst.their_v << " V)";
    return line.str();
}

/// A step may err by 1e-3 of a voltage or current (of 1 V or 0.1 A where it is less): 12 mV on 12 V, and a
/// few steps err the same way. Bounds hold both at the tolerance at which courses run and, to tell its error
/// from a mistake, at a thousandth.
struct Bounds {
    double as_run_v = 0;
    double fine_v = 0;
};

void compare(const std::string& name, const StoringNetwork& network, double until_s, double longest_s,
             const Bounds& bounds) {
    const auto theirs = test::ngspice_course(network, {until_s, longest_s, test::kTightOptions});
    if (!theirs) FAIL(theirs.error());
    const Difference as_run = worst_difference(network, until_s, *theirs, 1);
    const Difference fine = worst_difference(network, until_s, *theirs, 1e-3);
    std::cout << "ngspice in time, " << name << ": worst difference " << text(as_run)
              << ", at a thousandth of the tolerance " << text(fine) << "\n";
    CHECK(as_run.volts < bounds.as_run_v);
    CHECK(fine.volts < bounds.fine_v);
}

/// 12 V behind 0.05 ohm at node 0.
StoringNetwork supplied(int node_count) {
    StoringNetwork network;
    network.node_count = node_count;
    network.add(0, kBody, model::Source{12, 0.05});
    return network;
}

/// A relay coil of 80 ohm and 0.4 H at node 1 that has pulled in, switched off at 0.1 s.
StoringNetwork coil_switched_off() {
    StoringNetwork network = supplied(2);
    const int contact = network.add(0, 1, model::Resistance{0.01});
    network.add(1, kBody, model::Resistance{80}, model::Inductance{0.4, 4800});
    network.toggles = {{0.1, contact, false}};
    return network;
}

}  // namespace

TEST_CASE("In time as ngspice: a capacitor is charged", "[ngspice]") {
    StoringNetwork network = supplied(2);
    network.add(0, 1, model::Resistance{100});
    network.add(1, kBody, model::Resistance{1e5}, model::Capacitance{1e-3, 0.1});
    compare("RC charge", network, 0.6, 1e-4, {0.025, 5e-4});
}

TEST_CASE("In time as ngspice: a relay coil with a resistor beside it is switched off", "[ngspice]") {
    StoringNetwork network = coil_switched_off();
    network.add(1, kBody, model::Resistance{560});
    compare("coil with resistor", network, 0.14, 5e-6, {0.2, 2e-3});
}

// Worst where the diode's current dies away at its knee: 0.1 mA there, a step's tolerance, are tenths of a
// volt.
TEST_CASE("In time as ngspice: a relay coil with a diode is switched off", "[ngspice]") {
    StoringNetwork network = coil_switched_off();
    network.add(kBody, 1, model::Junction{1e-12, 0.026});
    compare("coil with diode", network, 0.14, 5e-6, {0.4, 5e-3});
}

TEST_CASE("In time as ngspice: a relay coil without suppression is switched off", "[ngspice]") {
    const StoringNetwork network = coil_switched_off();
    compare("coil without suppression", network, 0.105, 1e-6, {1.5, 0.1});
}

TEST_CASE("In time as ngspice: a motor spins up", "[ngspice]") {
    StoringNetwork network = supplied(2);
    network.add(0, 1, model::Resistance{0.02});
    network.add(1, kBody, model::RunningMotor{0.9, 0.6, 1.4, 12}, model::Rotor{0.15});
    compare("motor spin-up", network, 1, 2e-4, {2e-3, 1e-4});
}

TEST_CASE("In time as ngspice: a cold filament lights up", "[ngspice]") {
    StoringNetwork network = supplied(1);
    network.add(0, kBody, model::Filament{12, 21, 0.1}, model::FilamentHeat{0.055}, 0.1);
    compare("filament", network, 0.5, 5e-5, {2e-3, 2e-4});
}

TEST_CASE("In time as ngspice: a capacitor across a load that is switched", "[ngspice]") {
    StoringNetwork network = supplied(3);
    const int contact = network.add(0, 1, model::Resistance{0.2});
    network.add(1, 2, model::Resistance{0.05});
    network.add(2, kBody, model::Resistance{6});
    network.add(2, kBody, model::Resistance{1e5}, model::Capacitance{2.2e-3, 0.08});
    network.toggles = {{0.05, contact, false}, {0.09, contact, true}};
    compare("capacitor across a switched load", network, 0.15, 5e-6, {0.03, 5e-4});
}

TEST_CASE("In time as ngspice: sixty nodes of everything, with contacts that open and close", "[ngspice]") {
    for (std::uint64_t start = 0; start < 3; ++start) {
        test::NetworkKind kind;
        kind.node_count = 60;
        kind.lamps = 0.1;
        kind.diodes = 0.03;
        test::StoresKind stores;
        stores.coils = stores.motors = stores.capacitors = 0.05;
        stores.toggles_every_s = 0.1;
        stores.until_s = 0.5;
        const StoringNetwork network = test::with_stores(start, test::body_electrics(start, kind), stores);
        compare("sixty nodes, network " + std::to_string(start), network, 0.5, 1e-5, {0.02, 5e-4});
    }
}
