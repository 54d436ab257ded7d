#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "engine/network/nodal/characteristic.h"
#include "tests/support/random_network.h"

namespace {

using namespace halfsplit::model;
using halfsplit::network::characteristic;
using halfsplit::network::limited_voltage;
using halfsplit::network::straight_v;
namespace test = halfsplit::test;

const std::vector<Law> kOneOfEach{
    Resistance{3},          Source{12.6, 0.01},    RegulatedSource{14.2, 0.01, 90}, Filament{12, 21, 0.1},
    Junction{1e-12, 0.026}, Junction{1e-20, 0.05}, RunningMotor{0.9, 0.6, 1.4, 12}};

Law any_law(test::Random& random) {
    switch (random.below(5)) {
        case 0:
            return Junction{random.log_uniform(1e-20, 1e-6), random.uniform(0.02, 0.1)};
        case 1:
            return RunningMotor{0.9, 0.6, random.uniform(0.7, 5), 12};
        case 2:
            return Cell{random.uniform(10, 13), 0.01, 0.03};
        case 3:
            return RegulatedSource{random.uniform(13, 15), 0.01, random.uniform(10, 150)};
        default:
            return Filament{12, random.log_uniform(1, 60), random.uniform(0.02, 0.5)};
    }
}

double current_a(const Law& law, double v) {
    return characteristic(law, v).current_a;
}

}  // namespace

TEST_CASE("A filament follows the re-rating law of its type sheet", "[characteristic]") {
    // Type sheets of 12 V lamps give power at 13.5 V; currents at other voltages by (v / rated)^0.55,
    // computed by hand (lamp re-rating, Fink & Beaty, Standard Handbook for Electrical Engineers, 11th ed. p.
    // 22-8). The cold end of the law leaves 2e-4 of the current at 6 V, hence the tolerance.
    struct Row {
        double rated_w, at_12_a, at_10_a, at_6_a;
    };
    for (const Row& row :
         {Row{25, 1.736, 1.570, 1.186}, Row{6, 0.4166, 0.3768, 0.2845}, Row{10, 0.6943, 0.6280, 0.4742}}) {
        const Filament lamp{13.5, row.rated_w, 0.1};
        CHECK(current_a(lamp, 13.5) == Approx(row.rated_w / 13.5).epsilon(1e-12));
        CHECK(current_a(lamp, 12) == Approx(row.at_12_a).epsilon(5e-4));
        CHECK(current_a(lamp, 10) == Approx(row.at_10_a).epsilon(5e-4));
        CHECK(current_a(lamp, 6) == Approx(row.at_6_a).epsilon(5e-4));
        CHECK(current_a(lamp, -6) == -current_a(lamp, 6));
    }
}

TEST_CASE("A cold filament has its stated share of the hot resistance", "[characteristic]") {
    // A vehicle bulb measures about a tenth of its hot resistance when cold (kfz-tech.de), a general lamp a
    // fifteenth.
    for (const double ratio : {0.1, 1.0 / 15, 0.5}) {
        const Filament lamp{12, 21, ratio};
        const double hot_ohm = 12 / current_a(lamp, 12);
        CHECK(1 / characteristic(lamp, 0).slope_s == Approx(ratio * hot_ohm).epsilon(1e-12));
    }
}

TEST_CASE("A junction follows the equation of Shockley", "[characteristic]") {
    // i = I (exp(v / n) - 1), Shockley 1949. Numbers worked by hand: exp(26) = 195729609428.83878, exp(0.1) -
    // 1 = 0.10517091807564763.
    const Junction junction{1e-12, 0.026};
    CHECK(current_a(junction, 0.676) == Approx(0.19572960942783878).epsilon(1e-13));
    CHECK(current_a(junction, 0.0026) == Approx(1.0517091807564763e-13).epsilon(1e-13));
    CHECK(current_a(junction, 0) == 0);
    CHECK(current_a(junction, -12) == -1e-12);
    CHECK(characteristic(junction, -12).slope_s == 0);
}

TEST_CASE("A junction goes on as its tangent where the exponential would overflow", "[characteristic]") {
    for (const Junction junction : {Junction{1e-12, 0.026}, Junction{1e-30, 0.05}, Junction{1e-3, 0.001}}) {
        const double knee_v = junction.slope_v * std::log(1e6 / junction.saturation_a);
        const auto at_knee = characteristic(junction, knee_v);
        CHECK(at_knee.current_a == Approx(1e6));
        const auto beyond = characteristic(junction, 1000);
        CHECK(std::isfinite(beyond.current_a));
        CHECK(beyond.slope_s == Approx(at_knee.slope_s));
        CHECK(beyond.current_a == Approx(1e6 + at_knee.slope_s * (1000 - knee_v)));
    }
}

TEST_CASE("A regulated source gives up to its limit and takes nothing back", "[characteristic]") {
    const RegulatedSource alternator{14.2, 0.01, 90};
    CHECK(current_a(alternator, 14.3) == 0);
    CHECK(current_a(alternator, 14.0) == Approx(-20));
    CHECK(current_a(alternator, 13.3) == Approx(-90));
    CHECK(current_a(alternator, 5) == -90);
}

TEST_CASE("A motor stands below its breakaway current and turns above it", "[characteristic]") {
    const RunningMotor motor{0.9, 0.6, 1.4, 12};
    CHECK(current_a(motor, 0.45) == Approx(0.5));
    CHECK(current_a(motor, 0.54) == Approx(0.6));
    CHECK(current_a(motor, 12) == Approx(1.4));
    CHECK(current_a(motor, -12) == Approx(-1.4));
    CHECK(current_a(motor, (0.54 + 12) / 2) == Approx(1.0));
}

TEST_CASE("The slope of every law is the derivative of its current", "[characteristic]") {
    for (const Law& law : kOneOfEach)
        for (const double v : {-13.0, -1.0, -0.3, -0.01, 0.005, 0.3, 0.61, 1.0, 7.0, 13.5, 14.1, 15.0}) {
            const double h = 1e-6;
            const double difference = (current_a(law, v + h) - current_a(law, v - h)) / (2 * h);
            CHECK(characteristic(law, v).slope_s == Approx(difference).epsilon(1e-5).margin(1e-7));
        }
}

TEST_CASE("No law ever gives less current for more voltage", "[characteristic]") {
    for (const Law& law : kOneOfEach) {
        double last_a = -std::numeric_limits<double>::infinity();
        for (int i = -3000; i <= 3000; ++i) {
            const auto here = characteristic(law, 0.01 * i);
            CHECK(here.current_a >= last_a);
            CHECK(here.slope_s >= 0);
            last_a = here.current_a;
        }
    }
}

TEST_CASE("A law outside its range is refused", "[characteristic]") {
    using halfsplit::network::require_valid;
    for (const Law& law : kOneOfEach) CHECK_NOTHROW(require_valid(law));
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const Law& law :
         std::vector<Law>{Resistance{0}, Resistance{-1}, Resistance{nan}, Source{12, 0}, Source{nan, 1},
                          RegulatedSource{14, 0.01, 0}, Filament{12, 0, 0.1}, Filament{12, 21, 1.5},
                          Junction{0, 0.026}, Junction{1e-12, 0}, RunningMotor{1, 2, 1, 12},
                          RunningMotor{1, 1, 13, 12}, RunningMotor{0, 0.6, 1.4, 12}})
        CHECK_THROWS_AS(require_valid(law), std::invalid_argument);
}

// Sampled: nowhere within the way that is promised is a law further off its tangent.
TEST_CASE("As far as a law is said to be straight it keeps to its tangent", "[characteristic]") {
    test::Random random(1);
    int promises = 0;
    for (int i = 0; i < 20000; ++i) {
        const Law law = any_law(random);
        const double at_v = random.chance(0.1) ? 0 : random.uniform(-20, 20);
        const auto there = characteristic(law, at_v);
        const double off_a = random.log_uniform(1e-14, 1e-3);
        const double way_v = straight_v(law, at_v, there, off_a);
        REQUIRE(way_v >= 0);
        if (way_v == 0) continue;
        ++promises;
        for (const double share : {-0.999, -0.5, 0.3, 0.999}) {
            const double to_v = at_v + share * std::min(way_v, 100.0);
            const double line_a = there.current_a + there.slope_s * (to_v - at_v);
            const double rounding_a =
                1e-15 * (std::abs(there.current_a) + there.slope_s * (std::abs(at_v) + std::abs(to_v)));
            INFO("law " << law.index() << " at " << at_v << " V to " << to_v << " V");
            REQUIRE(std::abs(current_a(law, to_v) - line_a) <= off_a + 10 * rounding_a);
            REQUIRE(limited_voltage(law, at_v, to_v) == to_v);
        }
    }
    CHECK(promises > 10000);
}
