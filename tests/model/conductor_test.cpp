#include "engine/model/conductor.h"

#include <array>
#include <catch2/catch.hpp>

namespace halfsplit::model {
namespace {

struct CopperSize {
    double area_mm2;
    double largest_milliohm_per_m;
};

// IEC 60228 class 5, plain copper at 20 degC, maximum; as reprinted by mycableengineering.com
// (knowledge-base/iec-60228-dc-resistance), bayka.de (Leiterwiderstand), uecables.com and a Kabeltronik data
// sheet (VDE 0295 extract, which adds 0.34 mm2).
constexpr std::array<CopperSize, 13> kClass5{{{0.34, 57.0},
                                              {0.5, 39.0},
                                              {0.75, 26.0},
                                              {1.0, 19.5},
                                              {1.5, 13.3},
                                              {2.5, 7.98},
                                              {4, 4.95},
                                              {6, 3.30},
                                              {10, 1.91},
                                              {16, 1.21},
                                              {25, 0.780},
                                              {35, 0.554},
                                              {50, 0.386}}};

// IEC 60028: standard annealed copper has 58 MS/m at 20 degC.
double ideal_ohm_per_m(double area_mm2) {
    return 1 / (58 * area_mm2);
}

}  // namespace

TEST_CASE("A wire never has less resistance than its copper and never more than its class allows") {
    for (const CopperSize& size : kClass5) {
        INFO(size.area_mm2 << " mm2");
        const double ohm = conductor_ohm(size.area_mm2, 1, 20);
        CHECK(ohm > ideal_ohm_per_m(size.area_mm2));
        CHECK(ohm < size.largest_milliohm_per_m / 1000);
    }
}

TEST_CASE("A wire's resistance grows with its length and shrinks with its cross-section") {
    // From Ohm's law for a uniform conductor, R = rho l / A.
    CHECK(conductor_ohm(1.5, 4, 20) == Approx(4 * conductor_ohm(1.5, 1, 20)));
    CHECK(conductor_ohm(6, 1, 20) == Approx(conductor_ohm(1.5, 1, 20) / 4));
    CHECK(conductor_ohm(1.5, 0, 20) == 0);
}

TEST_CASE("Copper gains resistance with heat as the factors of IEC 60228 have it") {
    // Factors that bring a reading to 20 degC, uecables.com reprint of IEC 60228; they use a rounded 0.004
    // per K where IEC 60028 has 0.00393, so half a percent is allowed.
    struct Factor {
        double degc;
        double to_20_degc;
    };
    for (const Factor& factor : {Factor{5, 1.064}, Factor{10, 1.042}, Factor{30, 0.962}, Factor{40, 0.926},
                                 Factor{60, 0.862}, Factor{90, 0.781}}) {
        INFO(factor.degc << " degC");
        CHECK(1 / copper_factor(factor.degc) == Approx(factor.to_20_degc).epsilon(0.005));
    }
    CHECK(copper_factor(20) == 1);
}

TEST_CASE("A relay coil gains a quarter of its resistance in a hot engine bay and loses one in deep frost") {
    // Arithmetic on IEC 60028's 0.00393 per K: +25.5 % at 85 degC, -23.6 % at -40 degC.
    CHECK(copper_factor(85) == Approx(1.255).margin(0.0005));
    CHECK(copper_factor(-40) == Approx(0.764).margin(0.0005));
}

TEST_CASE("Copper keeps some resistance however cold it is said to be") {
    CHECK(copper_factor(-1e6) > 0);
    CHECK(conductor_ohm(1, 1, -273.15) > 0);
}

}  // namespace halfsplit::model
