// Step lengths of a method of second order, whose error goes with the third power of a step (Hairer, Norsett
// & Wanner, Solving Ordinary Differential Equations I, section II.4, from memory).

#include <catch2/catch.hpp>

#include <cmath>

#include "engine/simulation/step_length.h"

using namespace halfsplit::simulation;

TEST_CASE("A step grows so that its error would come close to the tolerance, and not beyond it") {
    for (const double error : {0.01, 0.05, 0.2, 0.5, 1.0}) {
        const double expected_error = error * std::pow(growth(error), 3);
        CHECK(expected_error < 1);
        CHECK(expected_error > 0.5);
    }
    CHECK(growth(0) == growth(1e-9));
}

TEST_CASE("A step that erred is tried again shorter, the shorter the more it erred") {
    double before = 1;
    for (const double error : {1.0001, 1.5, 5.0, 9.9, 10.1, 100.0, 1e4, 1e6}) {
        const double now = shrinkage(error);
        CHECK(now < before);
        CHECK(now > 0);
        before = now;
    }
}

TEST_CASE("An error in proportion to the step is made good in a few tries without far too short a step") {
    for (const double error : {50.0, 1e3, 3e4}) {
        double step = 1;
        int tries = 0;
        for (; error * step > 1; ++tries) step *= shrinkage(error * step);
        INFO("error " << error << ": " << tries << " tries, then a step of " << step);
        CHECK(tries <= 3);
        CHECK(error * step > 0.02);
    }
}
