#pragma once

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// Settles the circuit anew with all the faults. Borrows both; may be called by several threads at once.
Predict prediction_anew(const model::Circuit& circuit, const Dictionary& dictionary);

/// Predicts pairs of faults as the dictionary predicts single ones. Where it settled those anew, each pair is
/// settled anew; where it put them into what stands, which it does for whole vehicles, so is the pair: two
/// dozen pairs in half a dozen states would take a minute else, after each reading. Borrows both, and may be
/// copied and called by several threads at once; copies share what they have worked out about states.
Predict pair_prediction(const model::Circuit& circuit, const Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
