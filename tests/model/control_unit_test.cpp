#include <catch2/catch.hpp>

#include "engine/model/driver_levels.h"
#include "engine/model/kinds/kinds.h"
#include "tests/model/part_samples.h"

namespace halfsplit::model {
namespace {

using test::element_named;
using test::expand;
using test::law_of;

Electrics unit() {
    return expand(test::sample(kinds::control_unit()).part());
}

}  // namespace

TEST_CASE(
    "A control unit draws its awake current at nominal voltage from its first supply to its first ground") {
    const Electrics electrics = unit();
    // Ohm's law: 2 mA asleep and 48 mA more awake make 50 mA at 12 V.
    CHECK(law_of<Resistance>(electrics, "electronics").ohm == Approx(6000));
    CHECK(law_of<Resistance>(electrics, "processor").ohm == Approx(250));
    CHECK(element_named(electrics, "processor").conducts_in == std::vector{0, 1});
    for (const char* name : {"electronics", "processor"}) {
        CHECK(element_named(electrics, name).from == 0);
        CHECK(element_named(electrics, name).to == 1);
    }
}

TEST_CASE(
    "A control unit's drivers join their pin to the rail of their kind and conduct when it drives them") {
    const Electrics electrics = unit();
    CHECK(element_named(electrics, "driver-7").from == 0);
    CHECK(element_named(electrics, "driver-7").to == 6);
    CHECK(law_of<Resistance>(electrics, "driver-7").ohm == 0.03);
    CHECK(element_named(electrics, "driver-8").from == 7);
    CHECK(element_named(electrics, "driver-8").to == 1);
    CHECK(element_named(electrics, "driver-9-high").to == 8);
    CHECK(element_named(electrics, "driver-9-low").from == 8);
    for (const char* name : {"driver-7", "driver-8", "driver-9-high", "driver-9-low"}) {
        CHECK(element_named(electrics, name).contact);
        CHECK_FALSE(element_named(electrics, name).driver.empty());
    }
    CHECK(element_named(electrics, "driver-7").conducts_in == std::vector{kDriverOn});
    CHECK(element_named(electrics, "driver-9-high").conducts_in == std::vector{kDriverOn});
    CHECK(element_named(electrics, "driver-9-low").conducts_in == std::vector{kDriverLow});
}

TEST_CASE("A control unit's inputs are pulled where their pin says") {
    const Electrics electrics = unit();
    CHECK(law_of<Resistance>(electrics, "pull-up-5").ohm == 4700);
    CHECK(element_named(electrics, "pull-up-5").from == 0);
    CHECK(law_of<Resistance>(electrics, "pull-down-6").ohm == 10000);
    CHECK(element_named(electrics, "pull-down-6").to == 1);
}

TEST_CASE("A bus pin rests at its level only while its unit is powered") {
    // 2.5 V is the recessive level of a high-speed CAN wire (from memory, ISO 11898-2).
    const Part part = test::sample(kinds::control_unit()).part();
    const Quantities world;
    const PartView view(part, part.numbers, world, 12);
    const Electrics electrics = expand(part);
    CHECK(law_of<Source>(electrics, "bias-10").emf_v == 2.5);
    CHECK(element_named(electrics, "bias-10").conducts_in == std::vector{view.condition("powered")});
}

TEST_CASE("A control unit is powered by the current through its electronics, so that a dead one is not") {
    const Electrics electrics = unit();
    REQUIRE(electrics.triggers.size() == 1);
    const Trigger& trigger = electrics.triggers.front();
    CHECK(trigger.observed == Observed::element_current_a);
    CHECK(trigger.subject == "electronics");
    // Ohm's law: below 6 V the 6000 ohm that are always there carry less than 1 mA.
    CHECK(trigger.fall == Approx(0.001));
    CHECK(trigger.rise > trigger.fall);
}

TEST_CASE("A control unit without a ground pin has no electronics and no pulls to ground") {
    const Part part = test::sample(kinds::control_unit())
                          .pins({test::unit_pin("1", "supply"), test::unit_pin("2", "low-side"),
                                 test::unit_pin("3", "input", {{"pull-down-ohm", "1000"}})})
                          .part();
    CHECK(expand(part).elements.empty());
    CHECK(expand(part).triggers.empty());
}

}  // namespace halfsplit::model
