#pragma once

#include <span>
#include <vector>

#include "engine/diagnosis/dictionary/sign.h"
#include "engine/network/network.h"

namespace halfsplit::practice {

/// Which branches of a network show each of the signs.
class SignPlaces {
  public:
    SignPlaces(const std::vector<diagnosis::SignSource>& sources, const network::Network& network);

    /// Empty where a condition shows it, or the part is not in the network.
    std::span<const int> branches_of(std::size_t source) const { return branches_[source]; }

    /// All of them, and the nodes they lie between but for the body.
    const std::vector<int>& branches() const { return all_branches_; }
    const std::vector<int>& nodes() const { return nodes_; }

  private:
    std::vector<std::vector<int>> branches_;  ///< one list per source
    std::vector<int> all_branches_;
    std::vector<int> nodes_;
};

}  // namespace halfsplit::practice
