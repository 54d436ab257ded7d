#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/dictionary.h"

namespace halfsplit::diagnosis {

/// What stands still does not tell what goes to and fro, nor where something would have gone to: rows that
/// were put into what stands (Told::as_it_stands) say nothing about that.
class WhatMoves {
  public:
    /// In one state; looks at the dictionary's findings and pulses only.
    WhatMoves(const model::Circuit& circuit, const Dictionary& dictionary, int state);

    /// Makes NaN of it in a row of the dictionary's findings.
    void forget_in(std::span<float> row) const;

  private:
    std::vector<int> moving_;  ///< findings
};

}  // namespace halfsplit::diagnosis
