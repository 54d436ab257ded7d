#include "engine/model/circuit.h"

#include <algorithm>

namespace halfsplit::model {
namespace {

template <typename Thing>
const Thing* find_by_id(const std::vector<Thing>& things, std::string_view id) {
    const auto found =
        std::find_if(things.begin(), things.end(), [id](const Thing& t) { return t.id == id; });
    return found == things.end() ? nullptr : &*found;
}

}  // namespace

const Part* Circuit::find_part(std::string_view part_id) const {
    return find_by_id(parts, part_id);
}
const Wire* Circuit::find_wire(std::string_view wire_id) const {
    return find_by_id(wires, wire_id);
}
const Quantity* Circuit::find_quantity(std::string_view quantity_id) const {
    return find_by_id(quantities, quantity_id);
}
const Place* Circuit::find_place(std::string_view place_id) const {
    return find_by_id(places, place_id);
}
const OperatingState* Circuit::find_state(std::string_view state_id) const {
    return find_by_id(states, state_id);
}

std::optional<PinRef> Circuit::find_pin(std::string_view point) const {
    const auto index_of = [this](const Part* part) { return static_cast<int>(part - parts.data()); };
    if (const Part* part = find_part(point); part != nullptr && is_one_point(*part))
        return PinRef{index_of(part), 0};
    const PointName name = split_point(point);
    const Part* part = find_part(name.part);
    if (part == nullptr || is_one_point(*part)) return std::nullopt;
    const auto pin = find_pin_index(*part, name.pin);
    if (!pin) return std::nullopt;
    return PinRef{index_of(part), *pin};
}

std::string Circuit::point_name(PinRef pin) const {
    const Part& part = parts.at(static_cast<std::size_t>(pin.part));
    if (is_one_point(part)) return part.id;
    return part.id + "." + part.pins.at(static_cast<std::size_t>(pin.pin)).id;
}

bool is_one_point(const Part& part) {
    return part.pins.size() == 1 && part.pins.front().id.empty();
}

std::optional<int> find_pin_index(const Part& part, std::string_view pin_id) {
    const auto found = std::find_if(part.pins.begin(), part.pins.end(),
                                    [pin_id](const Pin& pin) { return pin.id == pin_id; });
    if (found == part.pins.end()) return std::nullopt;
    return static_cast<int>(found - part.pins.begin());
}

PointName split_point(std::string_view point) {
    const std::size_t dot = point.rfind('.');
    if (dot == std::string_view::npos) return {point, ""};
    return {point.substr(0, dot), point.substr(dot + 1)};
}

}  // namespace halfsplit::model
