#pragma once

#include <vector>

#include "engine/diagnosis/suspects/hypotheses.h"
#include "engine/diagnosis/suspects/readings.h"

namespace halfsplit::diagnosis {

/// What one reading says about each hypothesis.
struct Weights {
    std::vector<double> log;        ///< of the likelihood
    std::vector<char> contradicts;  ///< it is rather nonsense, if this is the one
    std::vector<int> silent;        ///< hypotheses that say nothing about it
};

/// All pairs must have been predicted in the reading's state.
Weights weigh(const Hypotheses& hypotheses, const Reading& reading);

/// The same after pairs were added or set aside: only pairs are weighed again.
void weigh_pairs_again(const Hypotheses& hypotheses, const Reading& reading, Weights& weights);

/// Log of each hypothesis' prior; -infinity where the evidence excludes it without any reading.
std::vector<double> log_priors(const Hypotheses& hypotheses, const Evidence& evidence);

/// States that readings were taken in, rising, each once.
std::vector<int> states_of(const std::vector<Reading>& readings);

}  // namespace halfsplit::diagnosis
