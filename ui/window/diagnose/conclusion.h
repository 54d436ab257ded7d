#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/diagnosis/next_test/consultation.h"
#include "ui/window/diagnose/notebook.h"

namespace halfsplit::window {

/// A suspect, in words.
struct SuspectLine {
    std::string name;  ///< "open:K2.85", "no fault at all"
    double probability = 0;
    std::string share;                        ///< "38.2 %"
    std::string what;                         ///< "The contact is open"
    std::string where;                        ///< places, wires with their colours
    std::string reason;                       ///< "explains 6 of 7 readings"
    std::vector<std::string> contradictions;  ///< each a reading that speaks against it
    std::vector<std::string> faults;          ///< what one looks for: none, one or two
    std::vector<std::string> things;          ///< parts and wires it sits in, for the diagram
};

/// What to do next, in words.
struct NextStep {
    std::string sentence;
    std::vector<std::string> outcomes;  ///< what each would mean
    std::optional<Spotted> test;        ///< nullopt: repair, or nothing at all
};

/// What follows from readings.
struct Conclusion {
    int readings = 0;
    std::vector<SuspectLine> suspects;
    double others = 0;       ///< probability of all that are not told
    double other_pairs = 0;  ///< of two faults at once that were not worked out one by one
    bool single_explains = true;
    std::vector<std::string> alike;  ///< suspects that no reading tells apart
    NextStep next;
    std::string trouble;  ///< why there is none
    std::optional<diagnosis::Advice> advice;
};

/// Next tests come from the dictionary's first `own_states` states. May take a second in a whole vehicle.
Conclusion conclude(diagnosis::Consultation& consultation, const diagnosis::Evidence& evidence,
                    int own_states);

}  // namespace halfsplit::window
