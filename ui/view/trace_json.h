#pragma once

#include <string>

#include "engine/tracing/trace.h"

namespace halfsplit::view {

/// A trace as one JSON object: {"trace","kind","title","place","extent","to_supply":[path…],"to_ground":[…],
/// "cut":{"supply","ground"},"body_return":[…],"live":path|null,"back_feeds":[…],"shares":[…],
/// "protects":{"loads","wires"}|null,"lost_if_open":[…],"lost_then":[…]}. A path is
/// {"start","end","start_v","interrupted","loads","steps":[{"name","title","role","from","to","from_place",
/// "to_place","colour","area_mm2","from_v","to_v","floating","current_a","conducts"},…]}.
std::string trace_json(const model::Circuit& circuit, const tracing::Trace& trace);

/// {"from","to","extent","cut","paths":[…]}
std::string connection_json(const model::Circuit& circuit, const tracing::Connection& connection);

}  // namespace halfsplit::view
