#include "engine/network/branches_in.h"

namespace halfsplit::network {

std::vector<Branch> branches_in(const Network& network, const std::vector<int>& conditions) {
    std::vector<Branch> branches;
    branches.reserve(network.branches.size());
    for (const NetworkBranch& each : network.branches) {
        branches.push_back(each.electrical);
        branches.back().conducts = network.conducts(each, conditions);
    }
    return branches;
}

}  // namespace halfsplit::network
