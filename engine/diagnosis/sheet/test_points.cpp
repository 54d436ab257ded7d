#include "engine/diagnosis/sheet/test_points.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "engine/base/index.h"

namespace halfsplit::diagnosis {

namespace {

/// Which pins are joined by wires alone: splices and ground points are pins too.
class Lines {
  public:
    explicit Lines(const model::Circuit& circuit) {
        for (const model::Part& part : circuit.parts) {
            first_pin_.push_back(static_cast<int>(line_.size()));
            line_.resize(line_.size() + part.pins.size());
        }
        std::iota(line_.begin(), line_.end(), 0);
        is_wired_.assign(line_.size(), false);
        for (const model::Wire& wire : circuit.wires) {
            line_[at(root(index(wire.from)))] = root(index(wire.to));
            is_wired_[at(index(wire.from))] = is_wired_[at(index(wire.to))] = true;
        }
    }

    int line_of(model::PinRef pin) { return root(index(pin)); }
    bool is_wired(model::PinRef pin) const { return is_wired_[at(index(pin))]; }

  private:
    int index(model::PinRef pin) const { return first_pin_[at(pin.part)] + pin.pin; }
    int root(int pin) {
        while (line_[at(pin)] != pin) pin = line_[at(pin)] = line_[at(line_[at(pin)])];
        return pin;
    }

    std::vector<int> first_pin_;
    std::vector<int> line_;
    std::vector<bool> is_wired_;
};

TestPoint point_of(const tracing::Wiring& wiring, model::PinRef pin) {
    TestPoint point{pin, wiring.circuit().point_name(pin), 0, place_of(wiring.circuit(), pin.part)};
    point.vertex = wiring.vertex(wiring.network().point_nodes.find(point.name)->second);
    return point;
}

bool is_coupling(const model::Part& part) {
    return part.kind->pin_policy == model::PinPolicy::counted;
}

/// The pins of a part that come into question.
std::vector<TestPoint> points_of(const tracing::Wiring& wiring, const Walk& walk, const Lines& lines,
                                 int index) {
    const model::Part& part = wiring.circuit().parts[at(index)];
    std::vector<TestPoint> points;
    if (model::is_one_point(part)) return points;
    for (int pin = 0; pin < static_cast<int>(part.pins.size()); ++pin)
        if (lines.is_wired({index, pin})) points.push_back(point_of(wiring, {index, pin}));
    if (!is_coupling(part)) return points;
    constexpr int kSides = 2;
    std::vector<TestPoint> far_sides;
    for (TestPoint& point : points) {
        const bool is_other_side =
            !far_sides.empty() && far_sides.back().pin.pin / kSides == point.pin.pin / kSides;
        if (!is_other_side)
            far_sides.push_back(std::move(point));
        else if (walk.depth(point.vertex) > walk.depth(far_sides.back().vertex))
            far_sides.back() = std::move(point);
    }
    return far_sides;
}

}  // namespace

TestPoint test_point(const tracing::Wiring& wiring, const std::string& name) {
    const auto pin = wiring.circuit().find_pin(name);
    if (!pin) throw std::logic_error("no point is called '" + name + "'");
    return point_of(wiring, *pin);
}

std::vector<TestPoint> test_points(const tracing::Wiring& wiring, const Walk& walk) {
    Lines lines(wiring.circuit());
    std::vector<TestPoint> kept;
    std::map<std::pair<int, int>, std::size_t> kept_of;  // line and place
    for (int part = 0; part < static_cast<int>(wiring.circuit().parts.size()); ++part)
        for (TestPoint& point : points_of(wiring, walk, lines, part)) {
            const auto [found, is_first] =
                kept_of.try_emplace({lines.line_of(point.pin), point.place}, kept.size());
            if (is_first)
                kept.push_back(std::move(point));
            else if (walk.depth(point.vertex) > walk.depth(kept[found->second].vertex))
                kept[found->second] = std::move(point);
        }
    return kept;
}

}  // namespace halfsplit::diagnosis
