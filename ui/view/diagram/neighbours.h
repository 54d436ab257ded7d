#pragma once

#include <optional>
#include <vector>

#include "ui/view/diagram/grid.h"

namespace halfsplit::view::diagram {

/// Where an item would like to begin, and how much that matters.
struct Vote {
    int x = 0;
    int weight = 1;
};

enum class Look { up, down, both };

/// Which items are joined with which, through the nets of the channels above and below them.
class Neighbours {
  public:
    explicit Neighbours(const Grid& grid);

    /// Adds a vote for each of the item's crossings on that side that leads to something; whether there was
    /// any.
    bool add_votes(const Grid& grid, int item, Look look, std::vector<Vote>& votes) const;
    /// Mean slot of what the port is joined with, nullopt where there is nothing.
    std::optional<double> target(const Grid& grid, int item, int port) const;
    /// Items from a search in depth from the first row on, downwards first.
    std::vector<int> depth_first(const Grid& grid) const;

  private:
    struct Tie {
        int channel = 0;
        int net = 0;
        Crossing own;
        bool is_down = false;  ///< the channel lies below the item
    };
    /// Calls `visit` with every other crossing of the tie's net.
    template <class Visit>
    void for_each_other(const Grid& grid, const Tie& tie, const Visit& visit) const;

    std::vector<std::vector<Tie>> ties_;  ///< of each item
};

}  // namespace halfsplit::view::diagram
