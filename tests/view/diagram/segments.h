#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "ui/view/diagram/geometry.h"

namespace halfsplit::test {

/// A straight piece of a drawn line.
struct Segment {
    enum class Of { wire, rail, link } of = Of::wire;
    int line = 0;  ///< index of the wire, rail or link
    view::diagram::Spot from;
    view::diagram::Spot to;

    bool is_level() const { return from.y == to.y; }
    view::diagram::Box box() const {
        return {std::min(from.x, to.x), std::min(from.y, to.y), std::max(from.x, to.x),
                std::max(from.y, to.y)};
    }
};

inline void add_segments(std::vector<Segment>& segments, Segment::Of of, int line,
                         const std::vector<view::diagram::Spot>& path) {
    for (std::size_t i = 0; i + 1 < path.size(); ++i) segments.push_back({of, line, path[i], path[i + 1]});
}

inline std::vector<Segment> segments_of(const view::diagram::Diagram& diagram) {
    std::vector<Segment> segments;
    for (std::size_t i = 0; i < diagram.wires.size(); ++i)
        add_segments(segments, Segment::Of::wire, static_cast<int>(i), diagram.wires[i].path);
    for (std::size_t i = 0; i < diagram.rails.size(); ++i)
        add_segments(segments, Segment::Of::rail, static_cast<int>(i), diagram.rails[i].path);
    for (std::size_t i = 0; i < diagram.links.size(); ++i)
        for (const auto& path : diagram.links[i].paths)
            add_segments(segments, Segment::Of::link, static_cast<int>(i), path);
    return segments;
}

/// Whether a spot lies on the segment, its ends included.
inline bool is_on(const Segment& segment, view::diagram::Spot spot) {
    const view::diagram::Box box = segment.box();
    return box.left <= spot.x && spot.x <= box.right && box.top <= spot.y && spot.y <= box.bottom;
}

}  // namespace halfsplit::test
