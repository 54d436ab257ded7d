#include "engine/network/islands.h"

#include <boost/pending/disjoint_sets.hpp>

#include <map>

namespace halfsplit::network {

std::vector<std::vector<int>> floating_islands(int node_count, std::span<const Branch> branches) {
    const auto count = static_cast<std::size_t>(node_count) + 1;  // the last is the body
    const auto index = [&](int node) { return node == kBody ? count - 1 : static_cast<std::size_t>(node); };
    std::vector<std::size_t> rank(count);
    std::vector<std::size_t> parent(count);
    boost::disjoint_sets<std::size_t*, std::size_t*> sets(rank.data(), parent.data());
    for (std::size_t i = 0; i < count; ++i) sets.make_set(i);
    for (const Branch& branch : branches)
        if (branch.conducts) sets.union_set(index(branch.from), index(branch.to));
    std::map<std::size_t, std::vector<int>> islands;
    const std::size_t anchored = sets.find_set(count - 1);
    for (int node = 0; node < node_count; ++node)
        if (const std::size_t root = sets.find_set(index(node)); root != anchored)
            islands[root].push_back(node);
    std::vector<std::vector<int>> result;
    for (auto& [root, nodes] : islands) result.push_back(std::move(nodes));
    return result;
}

}  // namespace halfsplit::network
