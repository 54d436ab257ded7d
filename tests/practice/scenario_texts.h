#pragma once

#include <catch2/catch.hpp>
#include <string>

#include "engine/practice/scenario/read_scenario.h"
#include "tests/support/circuits.h"
#include "tests/support/files.h"

namespace halfsplit::test {

/// Where a scenario of a test stands: two folders below the project's circuits.
inline const std::string kScenarioPath = "scenarios/a.scenario.xml";

/// A scenario on the horn circuit around what a test is about.
inline std::string scenario_text(const std::string& hidden, const std::string& symptoms,
                                 const std::string& head = "level=\"1\"") {
    return "<scenario xmlns=\"urn:halfsplit:scenario\" version=\"1\" id=\"test\" title=\"Test\" " + head +
           " circuit=\"../circuits/horn.circuit.xml\" arrives=\"key-off\" budget-min=\"500\">\n"
           "<job-card vehicle=\"Van, invented\" mileage-km=\"1000\"><complaint>It is "
           "silent.</complaint></job-card>\n"
           "<symptoms>" +
           symptoms + "</symptoms>\n<hints><hint>First.</hint><hint>Second.</hint></hints>\n<hidden>" +
           hidden + "</hidden>\n</scenario>\n";
}

inline const std::string kBothSilent =
    "<symptom state=\"sounding\" at=\"P3\" shows=\"silent\"/>"
    "<symptom state=\"sounding\" at=\"P4\" shows=\"silent\"/>";

inline tl::expected<practice::ScenarioWithCircuit, Diagnostics> read_scenario_text(const std::string& text) {
    return practice::read_scenario(kScenarioPath, [&](const std::string& path) {
        return path == kScenarioPath ? tl::expected<std::string, std::string>(text)
                                     : read_file(project_file(path));
    });
}

/// Ends the test with the errors where it has some.
inline practice::ScenarioWithCircuit scenario_of(const std::string& text) {
    auto read = read_scenario_text(text);
    if (!read) FAIL(to_text(read.error().front()));
    return std::move(*read);
}

/// Both horns are silent, because a contact of the coupling in their feed is open.
inline const practice::ScenarioWithCircuit& silent_horn() {
    static const practice::ScenarioWithCircuit read =
        scenario_of(scenario_text("<fault spec=\"open:X3.1\"/>", kBothSilent));
    return read;
}

}  // namespace halfsplit::test
