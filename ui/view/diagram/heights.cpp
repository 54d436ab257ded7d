#include "ui/view/diagram/heights.h"

#include <algorithm>
#include <functional>
#include <queue>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/shape.h"

namespace halfsplit::view::diagram {

namespace {

/// What a pin that no way leads to counts as.
constexpr int kOutOfReach = 1000;
/// A control unit separates what its pins join, but if there is no other way it is one.
constexpr int kThroughUnit = 200;
/// The output of a sender hangs below its supply, not above its ground: signals flow down the page.
constexpr int kAgainstSignal = 50;

struct Link {
    int to = 0;
    int cost = 1;
};

class PointGraph {
  public:
    PointGraph(const model::Circuit& circuit, const Selection& selection) : circuit_(circuit) {
        for (const model::Part& part : circuit.parts) {
            first_.push_back(count_);
            count_ += static_cast<int>(part.pins.size());
        }
        links_.resize(at(count_));
        for (const int part : selection.parts) join_inside(part);
        for (const int wire : selection.wires)
            join(index(circuit.wires[at(wire)].from), index(circuit.wires[at(wire)].to), 1);
    }

    int index(model::PinRef pin) const { return first_[at(pin.part)] + pin.pin; }

    std::vector<int> distances(const std::vector<int>& sources) const {
        std::vector<int> distance(at(count_), kOutOfReach);
        using Entry = std::pair<int, int>;
        std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
        for (const int source : sources) {
            distance[at(source)] = 0;
            open.emplace(0, source);
        }
        while (!open.empty()) {
            const auto [far, from] = open.top();
            open.pop();
            if (far > distance[at(from)]) continue;
            for (const Link& link : links_[at(from)])
                if (far + link.cost < distance[at(link.to)]) {
                    distance[at(link.to)] = far + link.cost;
                    open.emplace(far + link.cost, link.to);
                }
        }
        return distance;
    }

  private:
    void join(int a, int b, int cost) {
        links_[at(a)].push_back({b, cost});
        links_[at(b)].push_back({a, cost});
    }

    /// Every two pins of the part that something inside it may join.
    void join_inside(int part_index) {
        const model::Part& part = circuit_.parts[at(part_index)];
        const int pins = static_cast<int>(part.pins.size());
        for (int a = 0; a < pins; ++a)
            for (int b = a + 1; b < pins; ++b)
                if (const int cost = cost_between(part, a, b); cost > 0)
                    join(first_[at(part_index)] + a, first_[at(part_index)] + b, cost);
    }

    static int cost_between(const model::Part& part, int a, int b) {
        const KindPicture picture = picture_of(part);
        const auto is = [&](int pin, std::string_view id) { return part.pins[at(pin)].id == id; };
        switch (picture.shape) {
            case Shape::battery:
                return 0;
            case Shape::coupling:
                return a / 2 == b / 2 ? 1 : 0;
            case Shape::relay: {
                const auto is_coil = [&](int pin) { return is(pin, "85") || is(pin, "86"); };
                return is_coil(a) == is_coil(b) ? 1 : 0;
            }
            case Shape::alternator:
                return is(a, "B+") || is(b, "B+") ? 0 : 1;
            case Shape::sender:
                return is(a, "-") || is(b, "-") ? kAgainstSignal : 1;
            case Shape::box:
                return kThroughUnit;
            default:
                return 1;
        }
    }

    const model::Circuit& circuit_;
    std::vector<int> first_;
    std::vector<std::vector<Link>> links_;
    int count_ = 0;
};

/// Where all begins (posts of batteries, outputs of alternators) and where it ends.
struct Poles {
    std::vector<int> supplies;
    std::vector<int> grounds;
};

Poles poles_of(const model::Circuit& circuit, const Selection& selection, const PointGraph& graph) {
    Poles poles;
    for (const int part_index : selection.parts) {
        const model::Part& part = circuit.parts[at(part_index)];
        const Shape shape = picture_of(part).shape;
        for (int pin = 0; pin < static_cast<int>(part.pins.size()); ++pin) {
            const std::string& id = part.pins[at(pin)].id;
            const int index = graph.index({part_index, pin});
            if ((shape == Shape::battery && id == "+") || (shape == Shape::alternator && id == "B+"))
                poles.supplies.push_back(index);
            if (shape == Shape::ground || (shape == Shape::battery && id == "-"))
                poles.grounds.push_back(index);
        }
    }
    return poles;
}

}  // namespace

Heights::Heights(const model::Circuit& circuit, const Selection& selection) {
    const PointGraph graph(circuit, selection);
    const Poles poles = poles_of(circuit, selection, graph);
    const std::vector<int> from_supply = graph.distances(poles.supplies);
    const std::vector<int> to_ground = graph.distances(poles.grounds);
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        std::vector<double>& heights = by_part_.emplace_back();
        for (int pin = 0; pin < static_cast<int>(circuit.parts[at(part)].pins.size()); ++pin) {
            const double above = from_supply[at(graph.index({part, pin}))];
            const double below = to_ground[at(graph.index({part, pin}))];
            heights.push_back(above + below > 0 ? above / (above + below) : 0.5);
        }
    }
}

double Heights::of(model::PinRef pin) const {
    return by_part_.at(at(pin.part)).at(at(pin.pin));
}

double Heights::mean(int part, int without) const {
    const std::vector<double>& heights = by_part_.at(at(part));
    double sum = 0;
    int count = 0;
    for (int pin = 0; pin < static_cast<int>(heights.size()); ++pin) {
        if (pin == without) continue;
        sum += heights[at(pin)];
        ++count;
    }
    return count > 0 ? sum / count : 0.5;
}

}  // namespace halfsplit::view::diagram
