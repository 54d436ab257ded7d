#include "engine/diagnosis/sheet/passages.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/diagnosis/sheet/walk.h"
#include "engine/tracing/live_path.h"

namespace halfsplit::diagnosis {

using tracing::Path;
using tracing::Role;
using tracing::Step;

namespace {

std::string harness_side(const std::string& point) {
    return point.substr(0, point.find('@'));
}

Passage::Kind kind_of(const model::Part& part, Role role, Passage::Kind before) {
    using Kind = Passage::Kind;
    if (part.kind->letter == "G") return Kind::supply;
    if (is_ground_point(part)) return Kind::ground;
    // A unit's own consumption and its output may lie on one way: what the current is there for counts.
    if (before == Kind::load || role == Role::load || role == Role::resistor || role == Role::valve)
        return Kind::load;
    if (role == Role::protection) return Kind::fuse;
    if (role == Role::contact) return Kind::contact;
    return before;
}

LiveWay way_of(const tracing::Wiring& wiring, const Path& path, double current_a) {
    LiveWay way{current_a, {}, {}};
    std::vector<int> wires;
    bool goes_on = false;  // within the part of the last passage
    for (const Step& step : path.steps) {
        if (way.stops.empty()) way.stops.push_back({step.from_node});
        const int fuse = step.role == Role::protection ? step.part : way.stops.back().fuse;
        way.stops.push_back({step.to_node, fuse});
        if (step.wire >= 0) {
            wires.push_back(step.wire);
            goes_on = false;
            continue;
        }
        if (step.part < 0) continue;
        const bool is_new = !goes_on || way.passages.back().part != step.part;
        if (is_new) {
            way.passages.push_back({Passage::Kind::joint, step.part, harness_side(step.from), "", wires});
            wires.clear();
        }
        Passage& passage = way.passages.back();
        passage.out = harness_side(step.to);
        passage.kind = kind_of(wiring.circuit().parts[at(step.part)], step.role, passage.kind);
        goes_on = true;
    }
    return way;
}

/// Where the way begins at a source's own terminal there is no step of the source, only wires.
void add_supply(const tracing::Wiring& wiring, const Path& path, LiveWay& way) {
    const std::string start = harness_side(path.start);
    const auto pin = wiring.circuit().find_pin(start);
    if (!pin || way.passages.empty() || way.passages.front().part == pin->part) return;
    way.passages.insert(way.passages.begin(), {Passage::Kind::supply, pin->part, start, start, {}});
}

}  // namespace

std::vector<LiveWay> live_ways(const tracing::Wiring& wiring) {
    const std::vector<double>& current_a = wiring.point().current_a;
    std::vector<LiveWay> ways;
    for (const tracing::LoadGroup& load : tracing::load_groups(wiring)) {
        const int branch = *std::ranges::max_element(load.branches, {},
                                                     [&](int each) { return std::abs(current_a[at(each)]); });
        const auto path = live_path_through(wiring, branch);
        if (!path) continue;
        LiveWay way = way_of(wiring, *path, std::abs(current_a[at(branch)]));
        add_supply(wiring, *path, way);
        ways.push_back(std::move(way));
    }
    return ways;
}

}  // namespace halfsplit::diagnosis
