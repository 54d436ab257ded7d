#include "ui/view/diagram/heights.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>

#include "engine/base/index.h"
#include "ui/view/diagram/shape.h"
#include "ui/view/diagram/springs.h"

namespace halfsplit::view::diagram {

namespace {

// How loosely things hold together, in wires: what conducts by nature is like a wire, what consumes hangs
// looser, and a control unit separates what its pins join, but where there is no other way it is one. A
// switch with a pin on ground may change something over between supply and ground: it must not tie the two.
constexpr double kConductor = 1;
constexpr double kMainFeed = 0.05;
constexpr double kToGround = 60;
constexpr double kLoad = 20;
constexpr double kThroughUnit = 400;
/// A unit hangs near its ground, so that what comes to it from the supply side comes down, however low that
/// is.
constexpr double kUnitToGround = 10;

/// A thick wire feeds much: what many loads hang on must not sag to them.
double wire_length(const model::Wire& wire) {
    return kConductor / std::max(1.0, wire.area_mm2);
}

double looseness(Shape shape) {
    switch (shape) {
        case Shape::fusible_link:
            return kMainFeed;
        case Shape::fuse:
        case Shape::circuit_breaker:
        case Shape::contact:
        case Shape::push_contact:
        case Shape::thermo_contact:
        case Shape::coupling:
            return kConductor;
        case Shape::box:
            return kThroughUnit;
        default:
            return kLoad;
    }
}

class PointSprings {
  public:
    PointSprings(const model::Circuit& circuit, const Selection& selection)
        : circuit_(circuit), first_(first_points(circuit)), springs_(first_.back()) {
        find_grounded(selection);
        for (const int part : selection.parts) join_inside(part);
        for (const int wire : selection.wires)
            springs_.join(index(circuit.wires[at(wire)].from), index(circuit.wires[at(wire)].to),
                          wire_length(circuit.wires[at(wire)]));
    }

    /// What all pins of the part hang on, -1 where they do not.
    int middle(int part) const {
        const auto found = middles_.find(part);
        return found == middles_.end() ? -1 : found->second;
    }
    int index(model::PinRef pin) const { return first_[at(pin.part)] + pin.pin; }
    std::vector<double> at_rest() const { return springs_.at_rest(); }

  private:
    static std::vector<int> first_points(const model::Circuit& circuit) {
        std::vector<int> first{0};
        for (const model::Part& part : circuit.parts)
            first.push_back(first.back() + static_cast<int>(part.pins.size()));
        return first;
    }

    int point(int part, std::string_view pin) const {
        return index({part, model::find_pin_index(circuit_.parts[at(part)], pin).value_or(0)});
    }

    /// What wires and couplings tie to ground.
    void find_grounded(const Selection& selection) {
        std::vector<std::vector<int>> next(at(first_.back()));
        const auto join = [&](int a, int b) {
            next[at(a)].push_back(b);
            next[at(b)].push_back(a);
        };
        for (const int wire : selection.wires)
            join(index(circuit_.wires[at(wire)].from), index(circuit_.wires[at(wire)].to));
        std::vector<int> open;
        for (const int part : selection.parts) {
            const Shape shape = picture_of(circuit_.parts[at(part)]).shape;
            if (shape == Shape::ground) open.push_back(index({part, 0}));
            if (shape != Shape::coupling) continue;
            for (int pin = first_[at(part)]; pin + 1 < first_[at(part) + 1]; pin += 2) join(pin, pin + 1);
        }
        is_grounded_.assign(next.size(), false);
        while (!open.empty()) {
            const int here = open.back();
            open.pop_back();
            if (is_grounded_[at(here)]) continue;
            is_grounded_[at(here)] = true;
            open.insert(open.end(), next[at(here)].begin(), next[at(here)].end());
        }
    }

    int middle_bead(int part) {
        const int bead = springs_.add_bead();
        middles_.emplace(part, bead);
        return bead;
    }

    double contact_length(int point) const { return is_grounded_[at(point)] ? kToGround : kConductor; }

    /// A switch as if all its contacts were closed, but for those to ground.
    void join_contacts(int part) {
        const int middle = middle_bead(part);
        for (int pin = first_[at(part)]; pin < first_[at(part) + 1]; ++pin)
            springs_.join(pin, middle, contact_length(pin));
    }

    void join_inside(int part) {
        const Shape shape = picture_of(circuit_.parts[at(part)]).shape;
        const int pins = static_cast<int>(circuit_.parts[at(part)].pins.size());
        switch (shape) {
            case Shape::battery:
                springs_.hold(point(part, "+"), 0);
                springs_.hold(point(part, "-"), 1);
                return;
            case Shape::ground:
                springs_.hold(index({part, 0}), 1);
                return;
            case Shape::alternator:
                springs_.hold(point(part, "B+"), 0);
                springs_.join(point(part, "D+"), point(part, "B-"), kLoad);
                return;
            case Shape::coupling:
                for (int pin = 0; pin + 1 < pins; pin += 2)
                    springs_.join(index({part, pin}), index({part, pin + 1}), kConductor);
                return;
            case Shape::relay:
                springs_.join(point(part, "86"), point(part, "85"), kLoad);
                springs_.join(point(part, "30"), point(part, "87"), contact_length(point(part, "87")));
                springs_.join(point(part, "30"), point(part, "87a"), contact_length(point(part, "87a")));
                return;
            case Shape::common_contacts:
            case Shape::contact_table:
                return join_contacts(part);
            case Shape::flasher:
                springs_.join(point(part, "49"), point(part, "49a"), kConductor);
                springs_.join(point(part, "49"), point(part, "31"), kLoad);
                return;
            case Shape::sender:
                // What it says comes down from its supply, whatever it pulls it to.
                springs_.join(point(part, "+"), point(part, "o"), kLoad);
                springs_.join(point(part, "+"), point(part, "-"), kLoad);
                return;
            case Shape::variable_resistor:
                for (const auto& [from, to] : {std::pair("1", "2"), std::pair("2", "3")})
                    springs_.join(point(part, from), point(part, to), kLoad);
                return;
            default:
                join_all(part, pins, looseness(shape));
        }
    }

    void join_all(int part, int pins, double length) {
        if (pins == 2) return springs_.join(index({part, 0}), index({part, 1}), length);
        if (pins < 2) return;
        const int middle = middle_bead(part);
        for (int pin = 0; pin < pins; ++pin) {
            const bool is_ground = circuit_.parts[at(part)].pins[at(pin)].kind == "ground";
            springs_.join(index({part, pin}), middle, is_ground ? kUnitToGround : length / 2);
        }
    }

    const model::Circuit& circuit_;
    std::vector<int> first_;
    std::vector<bool> is_grounded_;
    std::map<int, int> middles_;
    Springs springs_;
};

}  // namespace

Heights::Heights(const model::Circuit& circuit, const Selection& selection) {
    const PointSprings springs(circuit, selection);
    const std::vector<double> places = springs.at_rest();
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) {
        std::vector<double>& heights = by_part_.emplace_back();
        for (int pin = 0; pin < static_cast<int>(circuit.parts[at(part)].pins.size()); ++pin)
            heights.push_back(places[at(springs.index({part, pin}))]);
        const int middle = springs.middle(part);
        middles_.push_back(middle < 0 ? mean(part) : places[at(middle)]);
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
