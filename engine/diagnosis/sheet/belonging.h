#pragma once

#include <map>
#include <set>
#include <vector>

#include "engine/diagnosis/sheet/passages.h"
#include "engine/diagnosis/sheet/walk.h"

namespace halfsplit::diagnosis {

/// Which fuse feeds a node and at which ground point its current ends: by the currents that flow in a state,
/// and where none flows as it is wired.
class Belonging {
  public:
    Belonging(const tracing::Wiring& wiring, const Walk& walk, const std::vector<LiveWay>& ways);

    /// Indices of parts, ascending; none where there are more than two, as on a rail.
    std::vector<int> fuses(int node) const;
    std::vector<int> grounds(int node) const;

  private:
    const tracing::Wiring& wiring_;
    const Walk& walk_;
    std::map<int, std::set<int>> fuses_;  ///< of nodes on live ways
    std::map<int, std::set<int>> grounds_;
};

}  // namespace halfsplit::diagnosis
