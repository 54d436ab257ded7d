// The integrator against closed forms, each with its source.

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

#include "engine/network/nodal/constants.h"
#include "engine/network/nodal/solver.h"
#include "tests/support/march.h"
#include "tests/support/random_stores.h"

using namespace halfsplit;
using network::kBody;
using simulation::Integrator;
using test::March;
using test::StoringNetwork;

namespace {

/// Far below what a printed table shows.
constexpr double kTightly = 1e-5;

/// 15 V, 10 kohm, 100 uF: Kuphaldt, Lessons in Electric Circuits I, ch. 16 (the capacitor's own losses are
/// not in the book: too small to show here). The source is node 0's, the capacitor at node 1.
StoringNetwork charging_capacitor() {
    StoringNetwork network;
    network.node_count = 2;
    network.add(0, kBody, model::Source{15, 1e-3});
    network.add(0, 1, model::Resistance{10e3});
    network.add(1, kBody, model::Resistance{1e12}, model::Capacitance{100e-6, 1e-3});
    return network;
}

/// 15 V, 1 ohm, 1 H from the same chapter; the coil's losses far too weak to show.
StoringNetwork rising_coil() {
    StoringNetwork network;
    network.node_count = 1;
    network.add(0, kBody, model::Source{15, 1e-6});
    network.add(0, kBody, model::Resistance{1}, model::Inductance{1, 1e9});
    return network;
}

struct Row {
    double at_s;
    double volts;
    double amperes;
};

StoringNetwork everything(std::uint64_t start) {
    test::NetworkKind kind;
    kind.node_count = 80;
    kind.lamps = 0.06;
    kind.diodes = 0.03;
    test::StoresKind stores;
    stores.until_s = 0.6;
    return test::with_stores(start, test::body_electrics(start, kind), stores);
}

void require_same_bits(const Integrator& one, const Integrator& other) {
    REQUIRE(one.state().moment.potential_v == other.state().moment.potential_v);
    REQUIRE(one.state().moment.current_a == other.state().moment.current_a);
    REQUIRE(one.state().x == other.state().x);
    REQUIRE(one.state().per_s == other.state().per_s);
}

/// Error of the charging capacitor's voltage after 1 s of steps of one length. The closed form counts all
/// that leaks at node 1.
double error_after_fixed_steps(int count) {
    const double leak_s = network::kLeakageSiemens + 1e-12;
    const double feed_ohm = 10e3 + 1e-3;
    const double seen_ohm = 1 / (1 / feed_ohm + leak_s);
    const double tau_s = 100e-6 * (seen_ohm + 1e-3);
    const double exact_v = 15 * seen_ohm / feed_ohm * (1 - std::exp(-1 / tau_s));
    Integrator integrator = test::started(charging_capacitor());
    for (int i = 0; i < count; ++i) {
        REQUIRE(integrator.try_step(1.0 / count));
        integrator.accept();
    }
    return std::abs(integrator.value(integrator.number_of(2)) - exact_v);
}

}  // namespace

// Kuphaldt, Lessons in Electric Circuits I, ch. 16, table "voltage and current over time" of the RC circuit.
TEST_CASE("A capacitor charges as in the book's table") {
    Integrator integrator = test::started(charging_capacitor(), kTightly);
    March march(integrator);
    for (const Row& row : {Row{0.5, 5.902, 909.8e-6}, Row{1, 9.482, 551.8e-6}, Row{2, 12.970, 203.0e-6},
                           Row{3, 14.253, 74.68e-6}, Row{4, 14.725, 27.47e-6}, Row{5, 14.899, 10.11e-6},
                           Row{6, 14.963, 3.718e-6}, Row{7.25, 14.989, 1.065e-6}}) {
        march.run_until(row.at_s);
        INFO("at " << row.at_s << " s");
        CHECK(integrator.potential_at(1, 0) == Approx(row.volts).margin(0.0006).epsilon(0));
        CHECK(integrator.current_at(1, 0) == Approx(row.amperes).epsilon(2e-3).margin(2e-8));
    }
}

// The same chapter, RL circuit.
TEST_CASE("The current in a coil rises as in the book's table") {
    Integrator integrator = test::started(rising_coil(), kTightly);
    March march(integrator);
    for (const Row& row : {Row{0.5, 9.098, 5.902}, Row{1, 5.518, 9.482}, Row{2, 2.030, 12.970},
                           Row{3, 0.747, 14.253}, Row{3.5, 0.453, 14.547}, Row{5, 0.101, 14.899}}) {
        march.run_until(row.at_s);
        INFO("at " << row.at_s << " s");
        const double amperes = integrator.current_at(1, 0);
        CHECK(amperes == Approx(row.amperes).margin(0.0006).epsilon(0));
        CHECK(integrator.potential_at(0, 0) - amperes == Approx(row.volts).margin(0.0006).epsilon(0));
    }
}

// Bank et al. 1985: TR-BDF2 is of second order.
TEST_CASE("Half the step leaves a quarter of the error") {
    double coarse_v = error_after_fixed_steps(20);
    for (const int count : {40, 80, 160, 320}) {
        const double fine_v = error_after_fixed_steps(count);
        INFO(count << " steps: " << coarse_v << " V, then " << fine_v << " V");
        CHECK(coarse_v / fine_v == Approx(4).epsilon(0.05));
        coarse_v = fine_v;
    }
}

// The linear differential equation of store.h, solved: with load current f + s e, e rises towards
// (U - R f) / (1 + s R) with the time constant C R / (1 + s R).
TEST_CASE("A rotor spins up exponentially") {
    constexpr double kSourceV = 12;
    constexpr double kSourceOhm = 0.05;
    const model::RunningMotor motor{0.9, 0.6, 1.4, 12};
    StoringNetwork network;
    network.node_count = 1;
    network.add(0, kBody, model::Source{kSourceV, kSourceOhm});
    network.add(0, kBody, motor, model::Rotor{0.2});
    const double ohm = motor.ohm + kSourceOhm;
    const double slope_s = (motor.load_a - motor.breakaway_a) / (motor.load_v - motor.ohm * motor.load_a);
    const double end_v = (kSourceV - ohm * motor.breakaway_a) / (1 + slope_s * ohm);
    const double tau_s = 0.2 * ohm / (1 + slope_s * ohm);

    Integrator integrator = test::started(network, kTightly);
    March march(integrator);
    for (const double at_s : {0.02, 0.1, 0.2, 0.5, 2.0}) {
        march.run_until(at_s);
        const double expected_v = end_v * (1 - std::exp(-at_s / tau_s));
        CHECK(integrator.value(integrator.number_of(1)) == Approx(expected_v).epsilon(1e-5));
        CHECK(integrator.current_at(1, 0) == Approx((kSourceV - expected_v) / ohm).epsilon(1e-4));
    }
}

// Inrush 10 to 15 times: switch-on current of incandescent lamps (an installation guide; lamptech.co.uk names
// about 14). Hot it must be what the law of the filament at rest says.
TEST_CASE("A filament draws ten to fifteen times its current when cold, and comes to rest on its law") {
    for (const double cold_ratio : {1.0 / 10, 1.0 / 12.5, 1.0 / 15}) {
        const model::Filament lamp{12, 21, cold_ratio};
        StoringNetwork network;
        network.node_count = 1;
        network.add(0, kBody, model::Source{12, 1e-4});
        network.add(0, kBody, lamp, model::FilamentHeat{0.055}, cold_ratio);
        const std::vector<network::Branch> lit{network.branches[0].electrical,
                                               network.branches[1].electrical};
        const auto at_rest = network::Solver(1, lit).solve();
        REQUIRE(at_rest);
        Integrator integrator = test::started(network);
        const double inrush_a = integrator.current_at(1, 0);
        March march(integrator);
        march.run_until(3);
        const double hot_a = integrator.current_at(1, 0);
        CHECK(inrush_a / hot_a >= 9.9);
        CHECK(inrush_a / hot_a <= 15);
        CHECK(hot_a == Approx(at_rest->current_a[1]).epsilon(1e-5));
        CHECK(integrator.is_steady());
    }
}

// Conservation of energy: what the source gives is stored or lost.
TEST_CASE("What a source gives is stored in coil and capacitor or lost in resistances") {
    constexpr double kHenry = 0.02;
    constexpr double kFarad = 1e-3;
    StoringNetwork network;  // a swinging circuit: node 1 between coil and capacitor
    network.node_count = 2;
    network.add(0, kBody, model::Source{12, 0.1});
    network.add(0, 1, model::Resistance{0.9}, model::Inductance{kHenry, 1e5});
    network.add(1, kBody, model::Resistance{1e4}, model::Capacitance{kFarad, 0.05});
    Integrator integrator = test::started(network, 1e-4);
    March march(integrator);
    const int coil = integrator.number_of(1);
    const int capacitor = integrator.number_of(2);
    double given_j = 0;
    double lost_j = 0;
    march.on_step = [&](double, double step_s) {
        const auto powers = [&](double share) {
            const double coil_a = integrator.value_at(coil, share);
            const double branch_a = integrator.current_at(1, share);
            const double charge_v = integrator.value_at(capacitor, share);
            const double across_v = integrator.voltage_at(2, share);
            const double charge_a = (across_v - charge_v) / 0.05;
            const double eddy_a = branch_a - coil_a;
            return std::pair{-12 * integrator.current_at(0, share),
                             0.1 * std::pow(integrator.current_at(0, share), 2) + 0.9 * branch_a * branch_a +
                                 1e5 * eddy_a * eddy_a + across_v * across_v / 1e4 +
                                 0.05 * charge_a * charge_a};
        };
        // Simpson's rule over the step.
        const auto [a, b, c] = std::array{powers(0), powers(0.5), powers(1)};
        given_j += step_s / 6 * (a.first + 4 * b.first + c.first);
        lost_j += step_s / 6 * (a.second + 4 * b.second + c.second);
    };
    for (const double at_s : {0.005, 0.012, 0.02, 0.05, 0.2}) {
        march.run_until(at_s);
        const double stored_j = kHenry / 2 * std::pow(integrator.value(coil), 2) +
                                kFarad / 2 * std::pow(integrator.value(capacitor), 2);
        INFO("at " << at_s << " s: given " << given_j << " J, stored " << stored_j << " J, lost " << lost_j);
        CHECK(given_j > 0.01);
        CHECK(std::abs(given_j - stored_j - lost_j) < 1e-4 * given_j);
    }
}

TEST_CASE("The same course gives the same bits") {
    for (std::uint64_t start = 0; start < 3; ++start) {
        const StoringNetwork network = everything(start);
        Integrator one = test::started(network);
        Integrator other = test::started(network);
        March first(one);
        March second(other);
        test::run_with_toggles(first, network.toggles, 0.6);
        test::run_with_toggles(second, network.toggles, 0.6);
        CHECK(first.steps() == second.steps());
        require_same_bits(one, other);
    }
}

TEST_CASE("A course taken up from its state in the middle gives the same bits") {
    for (std::uint64_t start = 0; start < 3; ++start) {
        StoringNetwork network = everything(start);
        network.toggles.clear();
        Integrator whole = test::started(network);
        for (int i = 0; i < 100; ++i) {
            REQUIRE(whole.try_step(1e-3));
            whole.accept();
        }
        const simulation::IntegratorState middle = whole.state();
        Integrator resumed(network.node_count, network.branches);
        resumed.resume(middle);
        for (int i = 0; i < 100; ++i) {
            REQUIRE(whole.try_step(2e-3).value() == resumed.try_step(2e-3).value());
            whole.accept();
            resumed.accept();
        }
        require_same_bits(whole, resumed);
    }
}
