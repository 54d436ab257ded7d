#pragma once

#include <set>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/tracing/wiring.h"

namespace halfsplit::tracing {

/// What a trace starts from.
enum class Subject { point, part, wire, element };

/// A vertex a trace sets out from.
struct Origin {
    int vertex = 0;
    bool at_load = false;  ///< a terminal of the subject's own load
};

/// The thing a trace is about, found in the wiring.
struct Start {
    std::string name;  ///< as asked for
    Subject subject = Subject::point;
    int part = -1;  ///< the part it is or belongs to, or -1
    int wire = -1;
    std::vector<Origin> origins;  ///< one per vertex
    std::set<int> own;            ///< the branches of the thing itself; a point has none
    int through = -1;             ///< a point on a load: that part, the only load its paths go through
};

/// "M3.1", "J14" or "M3.1@part" (a point), "M3" (a part), "W31" (a wire), "K2.coil" (an element of a part),
/// looked for in this order. The message says what is not there and what may have been meant.
tl::expected<Start, std::string> find_start(const Wiring& wiring, const std::string& name);

}  // namespace halfsplit::tracing
