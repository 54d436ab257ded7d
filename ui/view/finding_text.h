#pragma once

#include <string>

#include "engine/diagnosis/next_test/outcomes.h"

namespace halfsplit::view {

/// What is looked at, as one says it to a colleague: "voltmeter at X3.2 (RDGN 1.5) against body", "voltmeter
/// from F7.1 to F7.2", "clamp around W12 (RD 2.5)", "look at E4 (Low beam, left)".
std::string finding_text(const model::Circuit& circuit, const diagnosis::Finding& finding);

/// Where one has to be for it: the place's title; "" where it is seen or heard from anywhere.
std::string finding_place(const model::Circuit& circuit, const diagnosis::Finding& finding);

/// A reading as the instrument shows it, or what a part does: "12.30 V", "dim".
std::string reading_text(const model::Circuit& circuit, const diagnosis::Finding& finding, double value);

/// The same of all that one outcome of a test may show: "11.90 V to 12.30 V".
std::string outcome_text(const model::Circuit& circuit, const diagnosis::Finding& finding, double low,
                         double high);

/// A test in few words, the same for the same test and no two alike: "sounding: voltmeter X3.2 body".
std::string test_name(const diagnosis::Dictionary& dictionary, const diagnosis::Test& test);

/// The sheet's name of the instrument: "voltmeter", "clamp", "look-and-listen".
std::string instrument_of(const diagnosis::Finding& finding);

/// The state's id, with its title where it has one.
std::string state_text(const model::Circuit& circuit, const std::string& id);

}  // namespace halfsplit::view
