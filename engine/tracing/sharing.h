#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/tracing/load_group.h"
#include "engine/tracing/origin.h"

namespace halfsplit::tracing {

/// What loads can have in common with a thing.
enum class Common {
    feed,        ///< the line: joined by wires and plugs alone, behind the same last switch or fuse
    protection,  ///< a fuse in their feed
    ground       ///< the ground point their current returns through
};

std::string_view common_name(Common common);

/// One thing shared, and by whom.
struct Sharing {
    Common common = Common::feed;
    std::string through;             ///< "F7", "E2"; of a feed line a point on it: "J14"
    std::string title;               ///< of the fuse or ground point, "" where it has none
    std::vector<std::string> loads;  ///< the others: names of load groups, never the thing's own
};

/// Feed lines, fuses and ground points of the thing as wired, each with the other loads on it. Nothing is
/// listed that no other load shares.
std::vector<Sharing> sharing(const Wiring& wiring, const std::vector<LoadGroup>& loads, const Start& start);

}  // namespace halfsplit::tracing
