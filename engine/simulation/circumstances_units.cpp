#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/model/driver_levels.h"
#include "engine/simulation/chart/run_chart.h"
#include "engine/simulation/circumstances.h"

namespace halfsplit::simulation {

using model::chart::Drive;
using model::chart::DriverLevel;

namespace {

/// A unit's program goes round in a millisecond or some (from memory): nothing makes it act twice at once.
constexpr double kRoundS = 1e-3;

/// What a driver that is on for a share of the time beats with: quick enough for lamps, slow enough to
/// follow; from memory.
constexpr double kDutyPeriodS = 0.01;

int condition_for(Drive drive) {
    switch (drive) {
        case Drive::on:
        case Drive::high:
            return model::kDriverOn;
        case Drive::low:
            return model::kDriverLow;
        case Drive::off:
            break;
    }
    return model::kDriverOff;
}

std::string drive_text(const DriverLevel& level) {
    switch (level.drive) {
        case Drive::on:
            if (level.duty < 1)
                return "driven " + std::to_string(std::lround(100 * level.duty)) + " % of the time";
            return "driven on";
        case Drive::high:
            return "driven high";
        case Drive::low:
            return "driven low";
        case Drive::off:
            break;
    }
    return "driven off";
}

}  // namespace

tl::expected<void, Diagnostics> Circumstances::do_to_unit(const Deed& deed) {
    if (const auto* each = std::get_if<UnitPower>(&deed)) return power(each->unit, each->has_power);
    if (const auto* each = std::get_if<UnitActs>(&deed)) return act(each->unit);
    if (const auto* each = std::get_if<InputTurns>(&deed)) turn_input(*each);
    if (const auto* each = std::get_if<DriverTrips>(&deed)) trip(*each);
    if (const auto* each = std::get_if<TakeDuty>(&deed)) take_duty(*each);
    return {};
}

tl::expected<void, Diagnostics> Circumstances::power(int index, bool has_power) {
    const Unit& unit = units_[at(index)];
    UnitState& state = state_.units[at(index)];
    state = {};
    for (const UnitDriver& driver : unit.drivers)
        if (!network_.forced[at(driver.slot)]) switch_to(driver.slot, model::kDriverOff);
    if (!has_power) return {};
    const ViewInTime now = view(state_.now_s, 0);
    state.inputs = inputs_now(unit, now);
    auto chart = start_chart(*unit.chart, UnitSenses(unit, state, now), state_.now_s);
    if (!chart) return tl::unexpected(Diagnostics{{chart.error().where, chart.error().message}});
    state.chart = std::move(*chart);
    state.next_round_s = state_.now_s + kRoundS;
    tell_states(index, {});
    obey(index);
    return {};
}

tl::expected<void, Diagnostics> Circumstances::act(int index) {
    const Unit& unit = units_[at(index)];
    UnitState& state = state_.units[at(index)];
    if (!state.chart || state_.conditions[at(unit.part)] == unit.unpowered) return {};
    const std::vector<int> before = state.chart->configuration;
    const ViewInTime now = view(state_.now_s, 0);
    const auto done = simulation::act(*unit.chart, *state.chart, UnitSenses(unit, state, now), state_.now_s);
    if (!done) return tl::unexpected(Diagnostics{{done.error().where, done.error().message}});
    state.next_round_s = state_.now_s + kRoundS;
    tell_states(index, before);
    obey(index);
    return {};
}

void Circumstances::turn_input(const InputTurns& deed) {
    UnitState& state = state_.units[at(deed.unit)];
    if (!state.chart) return;
    InputState& input = state.inputs[at(deed.input)];
    input.high = deed.high;
    if (deed.high) {
        input.period_s = std::isfinite(input.rose_s) ? state_.now_s - input.rose_s : kNever;
        input.rose_s = state_.now_s;
    }
    const std::string& pin = units_[at(deed.unit)].inputs[at(deed.input)].pin;
    const bool is_listened_to =
        std::ranges::any_of(units_[at(deed.unit)].chart->pins, [&](const model::chart::PinReference& each) {
            return each.use == model::chart::PinUse::event && each.pin == pin;
        });
    if (is_listened_to) raise_event(*state.chart, "in." + pin + (deed.high ? ".high" : ".low"));
}

void Circumstances::trip(const DriverTrips& deed) {
    const Unit& unit = units_[at(deed.unit)];
    const UnitDriver& driver = unit.drivers[at(deed.driver)];
    UnitState& state = state_.units[at(deed.unit)];
    std::erase_if(state.duties, [&](const Duty& duty) { return duty.driver == deed.driver; });
    if (std::ranges::find(state.tripped, deed.driver) == state.tripped.end())
        state.tripped.push_back(deed.driver);
    if (!network_.forced[at(driver.slot)]) switch_to(driver.slot, model::kDriverOff);
    events_.push_back({state_.now_s, circuit_->parts[at(unit.part)].id,
                       "output " + driver.pin + " cuts itself off: too much current", true});
}

void Circumstances::take_duty(const TakeDuty& deed) {
    Duty& duty = state_.units[at(deed.unit)].duties[at(deed.duty)];
    const int slot = units_[at(deed.unit)].drivers[at(duty.driver)].slot;
    const bool was_on = state_.conditions[at(slot)] == model::kDriverOn;
    duty.next_s = state_.now_s + kDutyPeriodS * (was_on ? 1 - duty.share : duty.share);
    switch_to(slot, was_on ? model::kDriverOff : model::kDriverOn);
}

/// Brings outputs, sleep and what is told up to what the chart has come to.
void Circumstances::obey(int index) {
    const Unit& unit = units_[at(index)];
    UnitState& state = state_.units[at(index)];
    for (int driver = 0; driver < static_cast<int>(unit.drivers.size()); ++driver) {
        const auto found = state.chart->drives.find(unit.drivers[at(driver)].pin);
        if (found != state.chart->drives.end()) drive(index, driver, found->second);
    }
    const bool can_sleep = unit.asleep >= 0 && !network_.forced[at(unit.part)];
    if (can_sleep) switch_to(unit.part, state.chart->asleep ? unit.asleep : unit.powered);
    for (const LogLine& line : take_log(*state.chart))
        events_.push_back({line.at_s, circuit_->parts[at(unit.part)].id, "says " + line.text, true});
}

void Circumstances::drive(int index, int driver_index, const DriverLevel& level) {
    const UnitDriver& driver = units_[at(index)].drivers[at(driver_index)];
    UnitState& state = state_.units[at(index)];
    if (network_.forced[at(driver.slot)]) return;
    if (level.drive == Drive::off)
        std::erase(state.tripped, driver_index);
    else if (std::ranges::find(state.tripped, driver_index) != state.tripped.end())
        return;
    const auto duty = std::ranges::find(state.duties, driver_index, &Duty::driver);
    const bool pulses = level.drive == Drive::on && level.duty < 1;
    const bool pulsed = duty != state.duties.end();
    if (pulses && pulsed && duty->share == level.duty) return;
    const bool same = !pulses && !pulsed && state_.conditions[at(driver.slot)] == condition_for(level.drive);
    if (same) return;
    if (pulsed) state.duties.erase(duty);
    if (pulses) state.duties.push_back({driver_index, level.duty, state_.now_s + kDutyPeriodS * level.duty});
    switch_to(driver.slot, condition_for(level.drive));
    events_.push_back({state_.now_s, circuit_->parts[at(units_[at(index)].part)].id,
                       "output " + driver.pin + " " + drive_text(level), true});
}

/// Which states were entered.
void Circumstances::tell_states(int index, const std::vector<int>& before) {
    const Unit& unit = units_[at(index)];
    for (const int state : state_.units[at(index)].chart->configuration)
        if (std::ranges::find(before, state) == before.end() && !unit.chart->state(state).id.empty())
            events_.push_back({state_.now_s, circuit_->parts[at(unit.part)].id,
                               "in state " + unit.chart->state(state).id, true});
}

}  // namespace halfsplit::simulation
