#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// What a reading has to do with a suspect.
struct Reason {
    enum class Verdict {
        explains,     ///< it is what the suspect leads one to find
        contradicts,  ///< if this is the one, the reading is rather nonsense
        says_nothing  ///< nobody knows what it would be
    };
    Reading reading;
    Expectation expected;
    Verdict verdict = Verdict::explains;
};

/// One for each reading, each once, by state and finding. Pairs must have been predicted in the readings'
/// states, as they have once they were ranked.
std::vector<Reason> reasons_for(const Hypotheses& hypotheses, int hypothesis, const Evidence& evidence);

/// Where a fault sits.
struct Concern {
    std::vector<int> places;  ///< indices into model::Circuit::places, rising, each once
    std::vector<int> parts;   ///< indices into the circuit
    std::vector<int> wires;  ///< the wires themselves, or those on the contact; of a part, all that end there
};
Concern concern_of(const model::Circuit& circuit, const network::Fault& fault);

}  // namespace halfsplit::diagnosis
