#pragma once

#include <vector>

namespace halfsplit::tracing {

/// Which single vertices of an undirected graph every way from a root to a vertex goes through: the
/// articulation points on the way, from the tree of the graph's biconnected components. Made once for a graph
/// in time in proportion to its size; each question then costs as much as its answer is long.
class CutTree {
  public:
    /// Edges as pairs of vertices 0 … vertex_count-1.
    CutTree(int vertex_count, const std::vector<std::pair<int, int>>& edges, int root);

    bool is_reached(int vertex) const { return vertex == root_ || block_of_[static_cast<std::size_t>(vertex)] >= 0; }

    /// The articulation points between the root and `vertex`, neither of them included, the nearest to
    /// `vertex` first. Empty where the vertex is not reached at all.
    std::vector<int> cuts_to(int vertex) const;

  private:
    int root_;
    std::vector<int> block_of_;     ///< per vertex: the biconnected component towards the root; -1 none
    std::vector<int> entrance_of_;  ///< per component: its vertex nearest the root
};

}  // namespace halfsplit::tracing
