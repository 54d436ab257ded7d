#include "engine/network/nodal/islands.h"

#include <cstddef>
#include <numeric>

namespace halfsplit::network {

namespace {

/// Disjoint sets of nodes; the body is the element after the last node, and always its set's representative.
class Sets {
  public:
    explicit Sets(int node_count) : parent_(static_cast<std::size_t>(node_count) + 1) {
        std::iota(parent_.begin(), parent_.end(), 0);
    }
    int body() const { return static_cast<int>(parent_.size()) - 1; }

    int representative(int element) {
        while (parent(element) != element) element = parent(element) = parent(parent(element));
        return element;
    }
    /// The higher element represents the union, so the body does wherever it belongs.
    void join(int a, int b) {
        a = representative(a);
        b = representative(b);
        (a < b ? parent(a) : parent(b)) = a < b ? b : a;
    }

  private:
    int& parent(int element) { return parent_[static_cast<std::size_t>(element)]; }
    std::vector<int> parent_;
};

}  // namespace

std::vector<int> islands(int node_count, std::span<const Branch> branches) {
    Sets sets(node_count);
    const auto element = [&](int node) { return node == kBody ? sets.body() : node; };
    for (const Branch& branch : branches)
        if (branch.conducts) sets.join(element(branch.from), element(branch.to));

    std::vector<int> number(static_cast<std::size_t>(node_count) + 1, kBody);
    std::vector<int> island;
    int next = 0;
    for (int node = 0; node < node_count; ++node) {
        const int representative = sets.representative(node);
        int& known = number[static_cast<std::size_t>(representative)];
        if (known == kBody && representative != sets.body()) known = next++;
        island.push_back(known);
    }
    return island;
}

}  // namespace halfsplit::network
