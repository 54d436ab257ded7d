#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view::diagram {

/// How far down the diagram a pin belongs: 0 at a supply, 1 at ground, between them by the number of things on
/// the shortest way to either. No electrics: only what joins what.
class Heights {
  public:
    Heights(const model::Circuit& circuit, const Selection& selection);

    double of(model::PinRef pin) const;
    /// Of all pins of the part that are not in `without`.
    double mean(int part, int without = -1) const;

  private:
    std::vector<std::vector<double>> by_part_;
};

}  // namespace halfsplit::view::diagram
