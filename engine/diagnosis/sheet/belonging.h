#pragma once

#include <map>
#include <vector>

#include "engine/diagnosis/sheet/passages.h"
#include "engine/diagnosis/sheet/walk.h"

namespace halfsplit::diagnosis {

/// Which fuse feeds a node and at which ground point its current ends: by the currents that flow in a state,
/// and where none flows as it is wired. Indices of parts; -1 where it is not one, as on a rail.
class Belonging {
  public:
    Belonging(const tracing::Wiring& wiring, const Walk& walk, const std::vector<LiveWay>& ways);

    int fuse(int node) const;
    int ground(int node) const;

  private:
    /// How much current comes by which fuse, or goes to which ground point (-1: none).
    using Shares = std::map<int, double>;
    static int main_one(const Shares& shares);

    const tracing::Wiring& wiring_;
    const Walk& walk_;
    std::map<int, Shares> fuses_;  ///< of nodes on live ways
    std::map<int, Shares> grounds_;
};

}  // namespace halfsplit::diagnosis
