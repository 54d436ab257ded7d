#pragma once

#include <vector>

#include "ui/view/diagram/geometry.h"

namespace halfsplit::view::diagram {

/// What of a drawing is taken: a text that is added later must keep clear of it.
class FreePlaces {
  public:
    explicit FreePlaces(const Diagram& diagram);

    bool is_free(const Box& box) const;
    void take(const Box& box) { taken_.push_back(box); }
    /// What could matter within so many units of a spot.
    FreePlaces around(Spot spot, int reach) const;

  private:
    FreePlaces() = default;
    void take(const std::vector<Spot>& path);

    std::vector<Box> taken_;
};

}  // namespace halfsplit::view::diagram
