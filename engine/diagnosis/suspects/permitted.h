#pragma once

#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"

namespace halfsplit::diagnosis {

/// What may be looked at or measured, as indices into the dictionary, each list rising.
struct Permitted {
    std::vector<int> states;
    std::vector<int> findings;
};

/// Everything.
Permitted all_permitted(const Dictionary& dictionary);

}  // namespace halfsplit::diagnosis
