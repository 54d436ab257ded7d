#include "engine/simulation/unit.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/simulation/chart/run_chart.h"

namespace halfsplit::simulation {

using model::chart::PinUse;

namespace {

constexpr int kSeesNothing = network::kBody - 1;
/// A high input is low again below this share of its threshold; from memory.
constexpr double kLowAgain = 0.9;
/// Pulses that are late by half their period are getting slower; after this long there are none; from memory.
constexpr double kLate = 1.5;
constexpr double kNoPulsesS = 2;

double pin_number(const model::Pin& pin, std::string_view name, double otherwise) {
    const auto found = pin.words.find(name);
    if (found == pin.words.end()) return otherwise;
    return read_number(found->second).value_or(otherwise);
}

void add_pins(const model::Part& part, int index, const network::Network& network, Unit& unit) {
    bool has_ground = false;
    for (std::size_t pin = 0; pin < part.pins.size(); ++pin) {
        const auto node = network.point_nodes.find(part.id + "." + part.pins[pin].id + "@part");
        const bool is_dead = network.dead_inputs.contains({index, static_cast<int>(pin)});
        unit.pins.push_back(part.pins[pin].id);
        unit.pin_nodes.push_back(is_dead || node == network.point_nodes.end() ? kSeesNothing : node->second);
        if (part.pins[pin].kind != "ground" || has_ground) continue;
        has_ground = true;
        unit.ground_node = unit.pin_nodes.back();
    }
}

void add_inputs(const model::Part& part, double nominal_v, Unit& unit) {
    for (const model::chart::PinReference& reference : unit.chart->pins) {
        const bool is_followed = reference.use == PinUse::event || reference.use == PinUse::hertz;
        if (!is_followed ||
            std::ranges::find(unit.inputs, reference.pin, &UnitInput::pin) != unit.inputs.end())
            continue;
        const auto pin = std::ranges::find(part.pins, reference.pin, &model::Pin::id);
        if (pin != part.pins.end())
            unit.inputs.push_back({reference.pin,
                                   unit.pin_nodes[static_cast<std::size_t>(pin - part.pins.begin())],
                                   pin_number(*pin, "threshold-v", nominal_v / 2)});
    }
}

void add_drivers(const model::Part& part, int index, const network::Network& network, Unit& unit) {
    for (const network::NetworkDriver& driver : network.drivers) {
        if (driver.part != index) continue;
        const model::Pin& pin = part.pins[at(driver.pin)];
        UnitDriver added{pin.id, driver.slot, pin_number(pin, "limit-a", kNever), {}};
        for (std::size_t i = 0; i < network.branches.size(); ++i)
            if (network.branches[i].slot == driver.slot) added.branches.push_back(static_cast<int>(i));
        unit.drivers.push_back(std::move(added));
    }
}

const UnitInput* input_named(const Unit& unit, std::string_view pin, std::size_t& index) {
    const auto found = std::ranges::find(unit.inputs, pin, &UnitInput::pin);
    index = static_cast<std::size_t>(found - unit.inputs.begin());
    return found == unit.inputs.end() ? nullptr : &*found;
}

double pin_v(const Unit& unit, int node, const ViewInTime& view) {
    if (node == kSeesNothing) return 0;
    return view.potential_v(node) - view.potential_v(unit.ground_node);
}

double driver_a(const UnitDriver& driver, const ViewInTime& view) {
    double most_a = 0;
    for (const int branch : driver.branches) most_a = std::max(most_a, std::abs(view.current_a(branch)));
    return most_a;
}

}  // namespace

std::vector<Unit> units_of(const model::Circuit& circuit, const network::Network& network) {
    std::vector<Unit> units;
    for (int index = 0; index < static_cast<int>(circuit.parts.size()); ++index) {
        const model::Part& part = circuit.parts[at(index)];
        const auto chart = circuit.behaviours.find(part.id);
        if (chart == circuit.behaviours.end()) continue;
        Unit unit;
        unit.part = index;
        unit.chart = &chart->second;
        const auto power = std::ranges::find(network.triggers, index, &network::NetworkTrigger::part);
        if (power != network.triggers.end()) {
            unit.unpowered = power->trigger.below;
            unit.powered = power->trigger.above;
            unit.asleep = power->trigger.also_above;
        }
        add_pins(part, index, network, unit);
        add_inputs(part, circuit.nominal_v, unit);
        add_drivers(part, index, network, unit);
        units.push_back(std::move(unit));
    }
    return units;
}

double UnitSenses::in_v(std::string_view pin) const {
    const auto found = std::ranges::find(unit_.pins, pin);
    if (found == unit_.pins.end()) return 0;
    return pin_v(unit_, unit_.pin_nodes[static_cast<std::size_t>(found - unit_.pins.begin())], view_);
}

double UnitSenses::hz(std::string_view pin) const {
    std::size_t index = 0;
    if (input_named(unit_, pin, index) == nullptr || index >= state_.inputs.size()) return 0;
    const InputState& input = state_.inputs[index];
    const double since_s = view_.time_s() - input.rose_s;
    if (input.period_s >= kNever || since_s > kNoPulsesS) return 0;
    return since_s > kLate * input.period_s ? 1 / since_s : 1 / input.period_s;
}

double UnitSenses::amps(std::string_view driver) const {
    const auto found = std::ranges::find(unit_.drivers, driver, &UnitDriver::pin);
    return found == unit_.drivers.end() ? 0 : driver_a(*found, view_);
}

std::vector<InputState> inputs_now(const Unit& unit, const ViewInTime& view) {
    const UnitState none;
    const UnitSenses senses(unit, none, view);
    std::vector<InputState> inputs;
    for (const UnitInput& input : unit.inputs)
        inputs.push_back({senses.in_v(input.pin) >= input.threshold_v, -kNever, kNever});
    return inputs;
}

void find_for_unit(const ViewInTime& view, const Unit& unit, int index, std::vector<Deed>& deeds) {
    const UnitState& state = view.state().units[at(index)];
    const bool has_power = unit.powered >= 0 && view.condition(unit.part) != unit.unpowered;
    if (!has_power || !state.chart) {
        if (has_power != state.chart.has_value()) deeds.push_back(UnitPower{index, has_power});
        return;
    }
    const UnitSenses senses(unit, state, view);
    for (std::size_t i = 0; i < unit.inputs.size(); ++i) {
        const double volts = pin_v(unit, unit.inputs[i].node, view);
        const bool was_high = state.inputs[i].high;
        const double threshold_v = unit.inputs[i].threshold_v * (was_high ? kLowAgain : 1);
        const bool is_high = volts >= threshold_v;
        if (is_high != was_high) deeds.push_back(InputTurns{index, static_cast<int>(i), is_high});
    }
    for (std::size_t i = 0; i < unit.drivers.size(); ++i)
        if (driver_a(unit.drivers[i], view) > unit.drivers[i].limit_a &&
            std::ranges::find(state.tripped, static_cast<int>(i)) == state.tripped.end())
            deeds.push_back(DriverTrips{index, static_cast<int>(i)});
    for (std::size_t i = 0; i < state.duties.size(); ++i)
        if (view.time_s() >= state.duties[i].next_s) deeds.push_back(TakeDuty{index, static_cast<int>(i)});
    const bool looks_round = view.time_s() >= state.next_round_s;
    if (looks_round && wants_to_act(*unit.chart, *state.chart, senses, view.time_s()))
        deeds.push_back(UnitActs{index});
}

}  // namespace halfsplit::simulation
