#include "ui/view/diagram/heights.h"

#include <string_view>

#include "engine/base/index.h"
#include "ui/view/diagram/shape.h"
#include "ui/view/diagram/springs.h"

namespace halfsplit::view::diagram {

namespace {

// How loosely things hold together, in wires: what conducts by nature is like a wire, what consumes hangs looser,
// and a control unit separates what its pins join, but where there is no other way it is one.
constexpr double kConductor = 1;
constexpr double kLoad = 20;
constexpr double kThroughUnit = 400;

double looseness(Shape shape) {
    switch (shape) {
        case Shape::fuse:
        case Shape::circuit_breaker:
        case Shape::fusible_link:
        case Shape::contact:
        case Shape::common_contacts:
        case Shape::contact_table:
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
        for (const int part : selection.parts) join_inside(part);
        for (const int wire : selection.wires)
            springs_.join(index(circuit.wires[at(wire)].from), index(circuit.wires[at(wire)].to), kConductor);
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
                springs_.join(point(part, "30"), point(part, "87"), kConductor);
                springs_.join(point(part, "30"), point(part, "87a"), kConductor);
                return;
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
        const int middle = springs_.add_bead();
        for (int pin = 0; pin < pins; ++pin) springs_.join(index({part, pin}), middle, length / 2);
    }

    const model::Circuit& circuit_;
    std::vector<int> first_;
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
