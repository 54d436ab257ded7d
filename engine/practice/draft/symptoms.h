#pragma once

#include <vector>

#include "engine/diagnosis/next_test/consultation.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::practice {

/// What a customer notices of a fault: signs that are not as in the sound vehicle, all in one state. Nobody
/// looks at fuses.
struct Presentation {
    int state = 0;                             ///< of the dictionary
    std::vector<diagnosis::Reading> readings;  ///< signs, by finding

    friend bool operator==(const Presentation&, const Presentation&) = default;
};

/// One per state in which the fault (an index into the dictionary's) shows, the one that shows most first.
/// None where a customer would notice nothing.
std::vector<Presentation> presentations_of(const model::Circuit& circuit,
                                           const diagnosis::Dictionary& dictionary, int fault);

}  // namespace halfsplit::practice
