#pragma once

#include <set>
#include <vector>

#include "engine/tracing/wiring.h"

namespace halfsplit::tracing {

/// What a path may go through and where it ends.
struct PathRules {
    Extent extent = Extent::now;
    Sense sense = Sense::either;
    std::vector<bool> targets;          ///< one flag per vertex
    std::vector<bool> barred_vertices;  ///< one flag per vertex, or empty; the start is never barred
    std::set<int> barred_branches = {};
    int loads = 0;          ///< how many parts a path may go through that are loads
    int only_through = -1;  ///< the one part it may go through as a load; -1: any
    int most = 64;          ///< paths
};

/// A way through the graph: the branches in order, and the vertices they join (one more than branches).
struct Route {
    std::vector<int> branches;
    std::vector<int> vertices;
};

struct FoundRoutes {
    std::vector<Route> routes;  ///< the shortest way on is always tried first
    bool cut = false;           ///< there are more
};

/// Every simple path from `start` to a target, none passing a ground on its way, none twice through a part's
/// contacts that are never closed together. Bounded in paths and in work, so it ends in any graph.
FoundRoutes find_paths(const Wiring& wiring, int start, const PathRules& rules);

}  // namespace halfsplit::tracing
