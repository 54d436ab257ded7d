#include "engine/model/part_view.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "engine/model/kinds/kinds.h"
#include "tests/support/part_builder.h"

namespace halfsplit::model {

TEST_CASE("A part view shows the values that count now and not the author's") {
    const Part part = test::PartBuilder(kinds::relay()).part();
    std::vector<double> numbers = part.numbers;
    numbers.front() = 34;
    const Quantities world{{"ambient", -5}};
    const PartView view(part, numbers, world, 24);
    CHECK(view.number("coil-ohm") == 34);
    CHECK(view.nominal_v() == 24);
    CHECK(view.word("contacts") == "changeover");
    CHECK(view.pin("86") == 2);
    CHECK(view.pin_count() == 5);
    CHECK(view.condition("energised") == 1);
    CHECK(view.quantity("ambient", 20) == -5);
    CHECK(view.quantity("speed", 20) == 20);
}

TEST_CASE("A number that is neither given nor assumed is known to be missing") {
    const Part part = test::PartBuilder(kinds::motor()).part();
    const Quantities world;
    const PartView view(part, part.numbers, world, 12);
    CHECK_FALSE(view.has("stall-a"));
    CHECK(view.has("armature-ohm"));
}

TEST_CASE("Asking a part view for a name its kind does not declare is a slip that is reported") {
    const Part part = test::PartBuilder(kinds::relay()).part();
    const Quantities world;
    const PartView view(part, part.numbers, world, 12);
    CHECK_THROWS_AS(view.number("coil"), std::logic_error);
    CHECK_THROWS_AS(view.has("coil"), std::logic_error);
    CHECK_THROWS_AS(view.word("contact"), std::logic_error);
    CHECK_THROWS_AS(view.pin("88"), std::logic_error);
    CHECK_THROWS_AS(view.condition("asleep"), std::logic_error);
    CHECK_THROWS_AS(PartView(part, {}, {}, 12), std::logic_error);
}

}  // namespace halfsplit::model
