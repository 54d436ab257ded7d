#pragma once

#include <string>

#include "engine/diagnosis/next_test/consultation.h"

namespace halfsplit::view {

/// How many suspects are told, at most; those beyond 99 % of all probability are not.
inline constexpr int kMostSuspects = 10;

/// For people: the suspects with their probability, where they sit and why, what cannot be told apart, and
/// what to do next in a sentence.
std::string advice_text(const diagnosis::Consultation& consultation, const diagnosis::Advice& advice,
                        int most_suspects = kMostSuspects);

/// The same as one JSON object: suspects, next, groups.
std::string advice_json(const diagnosis::Consultation& consultation, const diagnosis::Advice& advice,
                        int most_suspects = kMostSuspects);

/// The next step alone: "With the ignition on, button pressed, put the voltmeter …".
std::string next_step_text(const diagnosis::Consultation& consultation, const diagnosis::Advice& advice);

/// "38.2 %"
std::string share_text(double share);

/// A hypothesis as one says it in a sentence: "open:W12", "no fault at all".
std::string suspect_name(const diagnosis::Consultation& consultation, int hypothesis);

/// A reading that speaks against a suspect: "sounding, voltmeter at K2.87 against body: 0 mV read, 12.1 V
/// expected".
std::string contradiction_text(const diagnosis::Consultation& consultation, const diagnosis::Reason& reason);

}  // namespace halfsplit::view
