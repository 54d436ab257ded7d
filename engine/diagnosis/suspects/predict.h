#pragma once

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// Settles the circuit anew with all the faults. Borrows both; may be called by several threads at once.
Predict prediction_anew(const model::Circuit& circuit, const Dictionary& dictionary);

/// Puts pairs of faults into what stands in the sound vehicle, which takes a tenth of a millisecond where
/// settling anew takes many. Where nothing goes on by itself that is exact. Borrows both, and may be copied
/// and called by several threads at once; copies share what they have worked out about states.
Predict pair_prediction(const model::Circuit& circuit, const Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
