#pragma once

#include <string>
#include <vector>

#include "engine/tracing/trace.h"

namespace halfsplit::view {

/// Every path of a trace: both sides, the way back to the battery, the live path, the back-feeds.
std::vector<tracing::Path> all_paths(const tracing::Trace& trace);

/// The subgraph these paths cover, its vertices the electrical nodes, its edges the steps, as Graphviz DOT:
/// for people to draw. Open steps are dashed, steps that carry current drawn wide; both say so in words too.
std::string trace_dot(const std::string& name, const std::vector<tracing::Path>& paths);

/// The same as GraphML (Brandes, Eiglsperger, Lerner: GraphML Primer), for programs to read. Vertices have
/// `label`, `place`, `potential_v`; edges `label`, `role`, `colour`, `area_mm2`, `current_a` (from source to
/// target), `conducts`.
std::string trace_graphml(const std::vector<tracing::Path>& paths);

}  // namespace halfsplit::view
