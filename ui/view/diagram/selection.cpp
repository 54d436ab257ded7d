#include "ui/view/diagram/selection.h"

#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "engine/base/index.h"
#include "ui/view/diagram/heights.h"
#include "ui/view/diagram/shape.h"

namespace halfsplit::view::diagram {

namespace {

enum class Way { up, down };

/// Follows wires and parts from pin to pin, never back towards where it came from: heights say which way that
/// is.
class Walk {
  public:
    explicit Walk(const model::Circuit& circuit)
        : circuit_(circuit), heights_(circuit, everything(circuit)), wires_at_(circuit.parts.size()) {
        for (std::size_t part = 0; part < circuit.parts.size(); ++part)
            wires_at_[part].resize(circuit.parts[part].pins.size());
        for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire)
            for (const model::PinRef pin : {circuit.wires[at(wire)].from, circuit.wires[at(wire)].to})
                wires_at_[at(pin.part)][at(pin.pin)].push_back(wire);
    }

    void start(int part) {
        parts_.insert(part);
        for (int pin = 0; pin < static_cast<int>(circuit_.parts[at(part)].pins.size()); ++pin)
            both_ways({part, pin});
    }

    Selection follow() {
        while (!open_.empty()) {
            const auto [pin, way] = open_.back();
            open_.pop_back();
            if (way == Way::up && is_supply(pin)) {
                find_return(pin.part);
                continue;
            }
            for (const int wire : wires_at_[at(pin.part)][at(pin.pin)]) along(wire, pin, way);
            through(pin, way);
        }
        return {{parts_.begin(), parts_.end()}, {wires_.begin(), wires_.end()}};
    }

  private:
    void go(model::PinRef pin, Way way) {
        if (!seen_.insert({pin.part, pin.pin, way}).second) return;
        open_.emplace_back(pin, way);
    }
    void both_ways(model::PinRef pin) {
        go(pin, Way::up);
        go(pin, Way::down);
    }

    bool is_supply(model::PinRef pin) const {
        const std::string& id = circuit_.parts[at(pin.part)].pins[at(pin.pin)].id;
        const Shape shape = picture_of(circuit_.parts[at(pin.part)]).shape;
        return (shape == Shape::battery && id == "+") || (shape == Shape::alternator && id == "B+");
    }

    /// What gives current gets it back.
    void find_return(int part) {
        for (int pin = 0; pin < static_cast<int>(circuit_.parts[at(part)].pins.size()); ++pin)
            if (const std::string& id = circuit_.parts[at(part)].pins[at(pin)].id; id == "-" || id == "B-")
                go({part, pin}, Way::down);
    }

    /// What lies level may be either: a motor between two half-bridges.
    bool is_on_the_way(model::PinRef from, model::PinRef to, Way way) const {
        const double here = heights_.of(from);
        const double there = heights_.of(to);
        return way == Way::up ? !Heights::is_above(here, there) : !Heights::is_above(there, here);
    }

    void along(int wire, model::PinRef from, Way way) {
        const model::Wire& drawn = circuit_.wires[at(wire)];
        const bool is_reversed = drawn.to.part == from.part && drawn.to.pin == from.pin;
        const model::PinRef to = is_reversed ? drawn.from : drawn.to;
        if (!is_on_the_way(from, to, way)) return;
        wires_.insert(wire);
        parts_.insert(to.part);
        go(to, way);
    }

    void through(model::PinRef from, Way way) {
        const model::Part& part = circuit_.parts[at(from.part)];
        const Shape shape = picture_of(part).shape;
        const bool feeds_itself = shape == Shape::box || shape == Shape::sender || shape == Shape::flasher;
        for (int pin = 0; pin < static_cast<int>(part.pins.size()); ++pin) {
            const model::PinRef to{from.part, pin};
            if (pin == from.pin) continue;
            if (feeds_itself) {
                if (is_feed(part, pin)) go(to, Way::up);
                if (is_return(part, pin)) go(to, Way::down);
            } else if (shape == Shape::relay && is_coil(part, pin)) {
                both_ways(to);
            } else if (are_joined(shape, part, from.pin, pin) && is_on_the_way(from, to, way)) {
                go(to, way);
            }
        }
    }

    static bool is_coil(const model::Part& part, int pin) {
        const std::string& id = part.pins[at(pin)].id;
        return id == "85" || id == "86";
    }
    static bool is_feed(const model::Part& part, int pin) {
        const model::Pin& asked = part.pins[at(pin)];
        return asked.kind == "supply" || asked.id == "+" || asked.id == "49";
    }
    static bool is_return(const model::Part& part, int pin) {
        const model::Pin& asked = part.pins[at(pin)];
        return asked.kind == "ground" || (asked.kind.empty() && (asked.id == "-" || asked.id == "31"));
    }
    static bool are_joined(Shape shape, const model::Part& part, int a, int b) {
        if (shape == Shape::battery) return false;
        if (shape == Shape::coupling) return a / 2 == b / 2;
        if (shape == Shape::relay) return is_coil(part, a) == is_coil(part, b);
        return true;
    }

    const model::Circuit& circuit_;
    Heights heights_;
    std::vector<std::vector<std::vector<int>>> wires_at_;  ///< by part and pin
    std::vector<std::pair<model::PinRef, Way>> open_;
    std::set<std::tuple<int, int, Way>> seen_;
    std::set<int> parts_;
    std::set<int> wires_;
};

}  // namespace

Selection everything(const model::Circuit& circuit) {
    Selection all;
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part) all.parts.push_back(part);
    for (int wire = 0; wire < static_cast<int>(circuit.wires.size()); ++wire) all.wires.push_back(wire);
    return all;
}

Selection ways_of(const model::Circuit& circuit, const std::vector<std::string>& part_ids) {
    Walk walk(circuit);
    for (int part = 0; part < static_cast<int>(circuit.parts.size()); ++part)
        if (std::find(part_ids.begin(), part_ids.end(), circuit.parts[at(part)].id) != part_ids.end())
            walk.start(part);
    return walk.follow();
}

}  // namespace halfsplit::view::diagram
