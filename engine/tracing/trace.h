#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/tracing/back_feed.h"
#include "engine/tracing/dependence.h"
#include "engine/tracing/origin.h"
#include "engine/tracing/protection.h"
#include "engine/tracing/sharing.h"
#include "engine/tracing/side_paths.h"

namespace halfsplit::tracing {

/// All that following a circuit from one thing tells, in the state the operating point is of.
struct Trace {
    std::string name;
    Subject subject = Subject::point;
    std::string title;  ///< of the part it is or belongs to
    std::string place;
    Extent extent = Extent::now;
    SidePaths sides;
    std::vector<Path> body_return;     ///< from the body to each negative pole
    std::optional<Path> live;          ///< nullopt: it carries nothing
    std::vector<BackFeed> back_feeds;  ///< anywhere in the circuit
    std::vector<Sharing> sharing;
    std::optional<Protected> protects;   ///< of a fuse or breaker
    std::vector<LostLoad> lost_if_open;  ///< if it opens: the wire breaks, the splice parts, the part is out
    std::vector<LostLoad> lost_then;     ///< what drops out in its turn
};

/// Traces from a point, part, wire or element; see find_start. The message says what is not there.
tl::expected<Trace, std::string> trace(const model::Circuit& circuit, const network::Network& network,
                                       const simulation::OperatingPoint& point, const std::string& name,
                                       const PathLimits& limits = {});

/// The ways from one thing to another.
struct Connection {
    std::string from;
    std::string to;
    Extent extent = Extent::now;
    std::vector<Path> paths;
    bool cut = false;  ///< there are more
};

tl::expected<Connection, std::string> trace_between(const model::Circuit& circuit,
                                                    const network::Network& network,
                                                    const simulation::OperatingPoint& point,
                                                    const std::string& from, const std::string& to,
                                                    const PathLimits& limits = {});

}  // namespace halfsplit::tracing
