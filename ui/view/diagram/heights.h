#pragma once

#include <vector>

#include "engine/model/circuit.h"
#include "ui/view/diagram/selection.h"

namespace halfsplit::view::diagram {

/// How far down the diagram a pin belongs: 0 at a supply, 1 at ground. Between them it is the mean of what it
/// is joined with, as beads on springs would hang: so every way from supply to ground leads down all along,
/// and what hangs on one side only hangs there. Not the electrics: only what joins what, and roughly how
/// tightly.
class Heights {
  public:
    Heights(const model::Circuit& circuit, const Selection& selection);

    double of(model::PinRef pin) const;
    /// Of all pins of the part but `without`.
    double mean(int part, int without = -1) const;
    /// Of what its pins hang on within the part: those above it bring, those below it take.
    double middle(int part) const { return middles_.at(static_cast<std::size_t>(part)); }
    /// Whether the first lies above the second; false where they are level.
    static bool is_above(double first, double second) { return first < second - kLevel; }

  private:
    /// Differences below are rounding; what really lies lower does so by a ten-thousandth and more
    /// (heights.cpp).
    static constexpr double kLevel = 1e-6;

    std::vector<std::vector<double>> by_part_;
    std::vector<double> middles_;
};

}  // namespace halfsplit::view::diagram
