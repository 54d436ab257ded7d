#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/network/nodal/ordering.h"

namespace halfsplit::network {

/// Removes nodes with at most two neighbours, joining the two neighbours of each removed one, until none is
/// left. Every step costs constant time: removing p between a and b turns a's half of the link a-p into its
/// half of a-b.
class Peeling {
  public:
    Peeling(int node_count, std::span<const Link> links);

    /// Peels as far as it goes; the removed nodes, in order.
    std::vector<int> peel();

    /// Links among the nodes that are left, each once. To be asked after peel().
    std::vector<Link> core_links() const;
    bool removed(int node) const { return removed_[index(node)] != 0; }

  private:
    struct Half {
        int node = 0;   ///< the neighbour this half of a link points at; kDead once the link is gone
        int twin = 0;   ///< the other half
        int next = -1;  ///< next half in the list of the node that owns this one
    };
    static constexpr int kDead = -1;
    static std::size_t index(int i) { return static_cast<std::size_t>(i); }

    void sweep(std::vector<int>& waiting, std::vector<int>& order);
    void remove(int node);
    void drop(int half);
    void join(int a_half, int b_half);
    void drop_parallel_links(int node);
    void touch(int node);
    bool drop_all_parallel_links();

    std::vector<Half> halves_;
    std::vector<int> first_half_;
    std::vector<int> neighbours_;  ///< number of live halves; parallel links count more than once
    std::vector<int> seen_;        ///< last node that met this one as a neighbour
    std::vector<int> touched_;     ///< last sweep that changed a neighbour of this node
    std::vector<char> removed_;
    std::vector<char> waiting_;  ///< 1: in twos_, 2: in ends_ (and perhaps still in twos_)
    std::vector<int> ends_;      ///< waiting nodes with at most one neighbour
    std::vector<int> twos_;      ///< waiting nodes with two
    std::vector<int> now_;
    int sweep_ = 0;
};

}  // namespace halfsplit::network
