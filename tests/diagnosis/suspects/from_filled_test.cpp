#include <catch2/catch.hpp>

#include <stdexcept>

#include "engine/diagnosis/suspects/from_filled.h"
#include "tests/diagnosis/dictionary/support.h"

using namespace halfsplit;
using diagnosis::Finding;

TEST_CASE("What nobody thought of measuring is asked for once, and read like the rest") {
    const model::Circuit circuit = test::shipped("horn");
    const auto rows = diagnosis::read_readings(circuit,
                                               "state,at,against,measured,complaint\nsounding,K2.30,E3,12.2\n"
                                               "ready,K2.30,E3,12.3,yes\nready,K2.30,,12.4\n",
                                               "a.csv");
    REQUIRE(rows);
    const auto further = diagnosis::further_findings(circuit, *rows);
    REQUIRE(further.size() == 1);
    CHECK(further[0].at == "K2.30");
    CHECK(further[0].against == "E3");

    diagnosis::Dictionary dictionary;
    dictionary.states = {"ready", "sounding"};
    dictionary.findings = diagnosis::findings_of(circuit);
    CHECK_THROWS_AS(diagnosis::readings_of(circuit, dictionary, *rows), std::logic_error);
    dictionary.findings.push_back(further[0]);
    const auto readings = diagnosis::readings_of(circuit, dictionary, *rows);
    REQUIRE(readings.size() == 3);
    const int last = static_cast<int>(dictionary.findings.size()) - 1;
    CHECK(readings[0] == diagnosis::Reading{1, last, 12.2});
    CHECK(readings[1] == diagnosis::Reading{0, last, 12.3, true});
    CHECK(readings[2].finding < last);
    CHECK(dictionary.findings[at(readings[2].finding)].at == "K2.30");
    CHECK(dictionary.findings[at(readings[2].finding)].against == "body");
    dictionary.states = {"ready"};
    CHECK_THROWS_AS(diagnosis::readings_of(circuit, dictionary, *rows), std::logic_error);
}
