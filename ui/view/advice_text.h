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

}  // namespace halfsplit::view
