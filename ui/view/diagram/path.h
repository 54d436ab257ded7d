#pragma once

#include <vector>

#include "ui/view/diagram/geometry.h"

namespace halfsplit::view::diagram {

/// A line of level and upright pieces, without points that lie on the way between their neighbours.
class Path {
  public:
    void add(Spot spot);
    void add(const std::vector<Spot>& spots);
    std::vector<Spot> spots() && { return std::move(spots_); }
    const std::vector<Spot>& spots() const& { return spots_; }

  private:
    std::vector<Spot> spots_;
};

Box moved(const Box& box, Spot by);

/// The least box around everything drawn.
Box extent(const Diagram& diagram);

/// Moves everything drawn.
void move(Diagram& diagram, Spot by);

}  // namespace halfsplit::view::diagram
