#pragma once

#include <string>
#include <vector>

#include "engine/model/circuit.h"

namespace halfsplit::diagnosis {

/// What can hurt somebody or the vehicle at this circuit, and what to do about it.
struct Caution {
    std::string text;
    std::vector<int> parts;  ///< those that move, get hot or hold the reason: indices into the circuit
    bool always = false;     ///< whatever the parts are
};

/// Those that apply to these parts of the circuit (all where none are given), the gravest first; the last one
/// says whose word counts, always.
std::vector<Caution> cautions_for(const model::Circuit& circuit, const std::vector<int>& parts = {});

}  // namespace halfsplit::diagnosis
