#pragma once

#include <vector>

#include "engine/tracing/origin.h"
#include "engine/tracing/step.h"

namespace halfsplit::tracing {

/// The two sides of a thing: how it is fed, and how it gets to ground.
struct SidePaths {
    std::vector<Path> to_supply;
    std::vector<Path> to_ground;
    bool supply_cut = false;  ///< there are more than are listed
    bool ground_cut = false;
};

/// How far to go.
struct PathLimits {
    Extent extent = Extent::now;
    int most_paths = 64;  ///< to each side
};

/// Every simple path to a supply and to ground from each terminal of the thing. Paths keep to what carries
/// current on: wires, plugs, closed contacts, fuses. Loads end them, with two exceptions, where a side has no
/// such path: a path of the thing as wired is given, its open contacts marked; and where the thing is no load
/// itself, paths through one load, because a fuse gets to ground only through what it feeds
/// (or would feed, with its open contacts marked). Such paths never
/// run back along the thing's own feed into the loads of others.
SidePaths side_paths(const Wiring& wiring, const Start& start, const PathLimits& limits);

/// Every simple path from one thing to another, through no load where there is such a path, else through one.
/// Open contacts only where nothing else is left, or where the extent asks for them.
std::vector<Path> paths_between(const Wiring& wiring, const Start& start, const Start& goal,
                                const PathLimits& limits, bool& cut);

}  // namespace halfsplit::tracing
