#pragma once

#include <vector>

namespace halfsplit::tracing {

/// Joins two vertices; `one_way` leads from the first to the second only.
struct CutEdge {
    int from = 0;
    int to = 0;
    bool one_way = false;
};

/// Which single vertices every way from a root to a vertex goes through. Where all edges lead both ways these
/// are the articulation points on the way, from the tree of the graph's biconnected components (Hopcroft &
/// Tarjan); one-way edges make them the dominators of a directed graph (Lengauer & Tarjan). Made once for a
/// graph; each question then costs as much as its answer is long.
class CutTree {
  public:
    /// Vertices are 0 … vertex_count-1. No edge may join a vertex to itself.
    CutTree(int vertex_count, const std::vector<CutEdge>& edges, int root);

    bool is_reached(int vertex) const {
        return vertex == root_ || cut_before_[static_cast<std::size_t>(vertex)] >= 0;
    }

    /// The vertices between the root and `vertex` without which it is not reached, neither of the two
    /// included, the nearest to `vertex` first. Empty where it is not reached at all.
    std::vector<int> cuts_to(int vertex) const;

  private:
    int root_;
    std::vector<int> cut_before_;  ///< per vertex: the nearest such vertex, at last the root; -1 not reached
};

}  // namespace halfsplit::tracing
