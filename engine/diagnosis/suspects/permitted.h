#pragma once

#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"
#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// What may be looked at or measured, as indices into the dictionary, each list rising.
struct Permitted {
    std::vector<int> states;
    std::vector<int> findings;
};

/// Everything.
Permitted all_permitted(const Dictionary& dictionary);

/// What a lead gets at, a clamp goes around or the eye sees: everything but voltages at splices, which are
/// within the harness.
Permitted measurable(const model::Circuit& circuit, const Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
