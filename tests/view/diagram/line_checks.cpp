#include "tests/view/diagram/drawing_checks.h"
#include "tests/view/diagram/segments.h"

namespace halfsplit::test {

namespace {

using namespace view::diagram;

std::string name_of(const Diagram& diagram, const Segment& segment) {
    const auto index = static_cast<std::size_t>(segment.line);
    if (segment.of == Segment::Of::wire) return "wire " + diagram.wires[index].wire;
    if (segment.of == Segment::Of::rail) return "rail " + diagram.rails[index].splice;
    return "link of " + diagram.links[index].mechanism + diagram.links[index].part;
}

/// The points a line belongs to.
std::vector<std::string> points_of(const Diagram& diagram, const Segment& segment) {
    const auto index = static_cast<std::size_t>(segment.line);
    if (segment.of == Segment::Of::wire) return {diagram.wires[index].from, diagram.wires[index].to};
    if (segment.of == Segment::Of::rail) return {diagram.rails[index].splice};
    return {"motion " + diagram.links[index].mechanism, "motion " + diagram.links[index].part};
}

bool share_a_point(const Diagram& diagram, const Segment& a, const Segment& b) {
    const auto first = points_of(diagram, a);
    const auto second = points_of(diagram, b);
    return std::any_of(first.begin(), first.end(), [&](const std::string& point) {
        return point != "motion " && std::find(second.begin(), second.end(), point) != second.end();
    });
}

bool are_parts_of_one_line(const Segment& a, const Segment& b) {
    return a.of == b.of && a.line == b.line;
}

/// Whether they have more than a point in common.
bool run_over_each_other(const Segment& a, const Segment& b) {
    if (a.is_level() != b.is_level()) return false;
    const Box first = a.box();
    const Box second = b.box();
    if (a.is_level()) return a.from.y == b.from.y && first.left < second.right && second.left < first.right;
    return a.from.x == b.from.x && first.top < second.bottom && second.top < first.bottom;
}

}  // namespace

std::vector<std::string> lines_through_symbols(const Diagram& diagram) {
    std::vector<std::string> complaints;
    for (const Segment& segment : segments_of(diagram)) {
        const Box line = segment.box();
        for (const Symbol& symbol : diagram.symbols) {
            const bool ends_here =
                std::any_of(symbol.terminals.begin(), symbol.terminals.end(), [&](const Terminal& terminal) {
                    const auto points = points_of(diagram, segment);
                    return std::find(points.begin(), points.end(), terminal.point) != points.end();
                });
            const bool moves_it = segment.of == Segment::Of::link;
            // A line that ends on a symbol, or moves it, may touch its edge; no line may go in.
            const int reach = ends_here || moves_it ? 0 : 1;
            const bool meets = line.left < symbol.ink.right + reach &&
                               symbol.ink.left - reach < line.right + (line.left == line.right ? 1 : 0) &&
                               line.top < symbol.ink.bottom + reach &&
                               symbol.ink.top - reach < line.bottom + (line.top == line.bottom ? 1 : 0) &&
                               line.right > symbol.ink.left - reach && line.bottom > symbol.ink.top - reach;
            if (meets) complaints.push_back(name_of(diagram, segment) + " runs through " + symbol.part);
        }
    }
    return complaints;
}

std::vector<std::string> false_joints(const Diagram& diagram) {
    std::vector<std::string> complaints;
    const std::vector<Segment> segments = segments_of(diagram);
    for (std::size_t i = 0; i < segments.size(); ++i)
        for (std::size_t k = i + 1; k < segments.size(); ++k) {
            const Segment& a = segments[i];
            const Segment& b = segments[k];
            if (are_parts_of_one_line(a, b) || share_a_point(diagram, a, b)) continue;
            const std::string both = name_of(diagram, a) + " and " + name_of(diagram, b);
            if (run_over_each_other(a, b)) complaints.push_back(both + " run over each other");
            const bool touch = is_on(a, b.from) || is_on(a, b.to) || is_on(b, a.from) || is_on(b, a.to);
            if (touch) complaints.push_back(both + " look joined");
        }
    return complaints;
}

std::vector<std::string> dots_amiss(const Diagram& diagram) {
    std::vector<std::string> complaints;
    std::vector<Segment> segments = segments_of(diagram);
    std::erase_if(segments, [](const Segment& segment) { return segment.of == Segment::Of::link; });
    for (const Dot& dot : diagram.dots)
        if (std::none_of(segments.begin(), segments.end(),
                         [&](const Segment& line) { return is_on(line, dot.at); }))
            complaints.push_back("a dot on no line");
    // Where a wire ends on the rail of a splice away from its ends there are three arms.
    for (const Rail& rail : diagram.rails)
        for (const WireLine& wire : diagram.wires)
            for (const auto& [point, end] :
                 {std::pair(wire.from, wire.path.front()), std::pair(wire.to, wire.path.back())}) {
                const int left = rail.path.front().x;
                const int right = rail.path.back().x;
                const bool is_inside =
                    point == rail.splice && end.y == rail.path.front().y && left < end.x && end.x < right;
                const bool has_dot = std::any_of(diagram.dots.begin(), diagram.dots.end(),
                                                 [&, spot = end](const Dot& dot) { return dot.at == spot; });
                if (is_inside && !has_dot)
                    complaints.push_back("no dot where " + wire.wire + " meets " + rail.splice);
            }
    return complaints;
}

}  // namespace halfsplit::test
