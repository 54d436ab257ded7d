#include <catch2/catch.hpp>

#include "ui/view/unit_signs.h"

namespace halfsplit::view {

// The signs of units and prefixes are those of the SI brochure, 9th edition (from memory).
TEST_CASE("Units behind numbers are shown with their signs, and nothing else changes") {
    CHECK(with_unit_signs("4.70 kohm") == "4.70 kΩ");
    CHECK(with_unit_signs("0.3 ohm, then 20 degC") == "0.3 Ω, then 20 °C");
    CHECK(with_unit_signs("rd 0.75 mm2") == "rd 0.75 mm²");
    CHECK(with_unit_signs("12.6 V") == "12.6 V");
    CHECK(with_unit_signs("a few ohm") == "a few ohm");
    CHECK(with_unit_signs("17 ohmmeters") == "17 ohmmeters");
    CHECK(with_unit_signs("10 Mohm (2 ohm)") == "10 MΩ (2 Ω)");
    CHECK(with_unit_signs("5 ") == "5 ");
    CHECK(with_unit_signs("") == "");
    CHECK(unit_sign("mohm") == "mΩ");
    CHECK(unit_sign("rpm") == "rpm");
}

}  // namespace halfsplit::view
