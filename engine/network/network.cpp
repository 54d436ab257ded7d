#include "engine/network/network.h"

#include <algorithm>

namespace halfsplit::network {

bool Network::conducts(const NetworkBranch& branch, const std::vector<int>& in_conditions) const {
    if (!branch.electrical.conducts) return false;
    if (branch.always || branch.conducts_in.empty()) return true;
    const int condition = in_conditions[static_cast<std::size_t>(branch.slot)];
    return std::ranges::find(branch.conducts_in, condition) != branch.conducts_in.end();
}

}  // namespace halfsplit::network
