#pragma once

#include <vector>

namespace halfsplit::view::diagram {

/// Beads joined by springs, some of them held: where the others come to rest, in one dimension.
class Springs {
  public:
    explicit Springs(int beads)
        : springs_(static_cast<std::size_t>(beads)),
          held_(springs_.size(), false),
          rest_(springs_.size(), 0.5) {}

    int add_bead();
    /// `length` > 0: the longer, the softer.
    void join(int a, int b, double length);
    void hold(int bead, double at);

    /// Conjugate gradients with the diagonal as preconditioner. A bead that hangs on nothing held rests at
    /// 0.5.
    std::vector<double> at_rest() const;

  private:
    struct Spring {
        int to = 0;
        double stiffness = 1;
    };
    /// The pull on each free bead, were all at `places`.
    std::vector<double> pull(const std::vector<double>& places) const;

    std::vector<std::vector<Spring>> springs_;
    std::vector<bool> held_;
    std::vector<double> rest_;  ///< of the held ones; 0.5 elsewhere
};

}  // namespace halfsplit::view::diagram
