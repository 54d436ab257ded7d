#include "engine/simulation/find_deeds.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/network/moved_parts.h"
#include "engine/simulation/chart/run_chart.h"

namespace halfsplit::simulation {

using network::NetworkTravel;
using network::NetworkTrigger;

namespace {

/// Friction holds a rotor up to its own rounding.
constexpr double kJustMore = 1 + 1e-9;

/// A coil pulls by its current: cold and at rest that is its voltage over its resistance.
double pull_v(const ViewInTime& view, int branch) {
    const auto* cold = std::get_if<model::Resistance>(&view.network().branches[at(branch)].electrical.law);
    const bool is_coil = cold != nullptr && view.integrator().number_of(branch) >= 0;
    return is_coil ? view.current_a(branch) * cold->ohm : view.voltage_v(branch);
}

double observed(const ViewInTime& view, const NetworkTrigger& trigger) {
    if (trigger.trigger.observed == model::Observed::quantity) return view.quantity(trigger.trigger.subject);
    double value = 0;
    for (const int branch : trigger.branches) {
        const double here = trigger.trigger.observed == model::Observed::element_voltage_v
                                ? pull_v(view, branch)
                                : view.current_a(branch);
        value = std::max(value, std::abs(here));
    }
    return value;
}

/// The condition a trigger draws its part to, or the present one.
int drawn_to(const ViewInTime& view, int index) {
    const NetworkTrigger& each = view.network().triggers[at(index)];
    const model::Trigger& trigger = each.trigger;
    const int present = view.condition(each.part);
    if (view.network().forced[at(each.part)]) return present;
    if (const int number = view.numbers().heat_of_trigger[at(index)]; number >= 0) {
        const double heat = view.value(number);
        if (heat >= 1) return trigger.above;
        const bool cooled = trigger.cooled > 0 && heat <= trigger.cooled;
        return present == trigger.above && cooled ? trigger.below : present;
    }
    const double value = observed(view, each);
    if (value >= trigger.rise) return present == trigger.also_above ? present : trigger.above;
    return value <= trigger.fall ? trigger.below : present;
}

void find_for_trigger(const ViewInTime& view, int index, std::vector<Deed>& deeds) {
    const NetworkTrigger& trigger = view.network().triggers[at(index)];
    const auto& waiting = view.state().waiting[at(index)];
    const int wanted = drawn_to(view, index);
    if (waiting) {
        if (waiting->condition != wanted)
            deeds.push_back(StopWaiting{index});
        else if (view.time_s() >= waiting->due_s)
            deeds.push_back(Switch{trigger.part, wanted});
        return;
    }
    if (wanted == view.condition(trigger.part)) return;
    const double delay_s =
        wanted == trigger.trigger.above ? trigger.trigger.rise_delay_s : trigger.trigger.fall_delay_s;
    if (delay_s > 0)
        deeds.push_back(StartWaiting{index, wanted, view.time_s() + delay_s});
    else
        deeds.push_back(Switch{trigger.part, wanted});
}

/// A snap switch goes back a little later than it went over: its differential, as a share of the travel; from
/// memory.
constexpr double kDifferential = 0.002;

double breakaway_a(const Integrator& integrator, int rotor) {
    return std::get<model::RunningMotor>(integrator.law(rotor)).breakaway_a;
}

/// 0 where it stays as it is.
Turning breaks_loose(const ViewInTime& view, int branch, int rotor) {
    const double current_a = view.current_a(branch);
    if (std::abs(current_a) <= kJustMore * breakaway_a(view.integrator(), rotor)) return Turning::standing;
    return current_a > 0 ? Turning::forwards : Turning::backwards;
}

void find_for_rotor(const ViewInTime& view, int rotor, std::vector<Deed>& deeds) {
    const Integrator& integrator = view.integrator();
    if (!integrator.conducts(rotor)) return;
    const Turning turning = integrator.turning(rotor);
    if (turning == Turning::standing) {
        if (const Turning starts = breaks_loose(view, rotor, rotor); starts != Turning::standing)
            deeds.push_back(Turn{rotor, starts});
    } else if (view.value(integrator.number_of(rotor)) * static_cast<int>(turning) < 0) {
        deeds.push_back(Turn{rotor, Turning::standing});
    }
}

/// Up to where it can go: something may be in the way.
double far_end(const ViewInTime& view, const NetworkTravel& travel) {
    if (travel.travel.obstacle.empty()) return 1;
    return std::clamp(view.quantity(travel.travel.obstacle) / 100, 0.0, 1.0);
}

/// A motor that is said to stand blocked stays so; a lock that is said to stand at an end can leave it.
bool is_held(const ViewInTime& view, const NetworkTravel& travel) {
    if (!travel.is_motor_held || travel.blocking.at_start != travel.blocking.at_end) return false;
    return view.condition(travel.motor) == travel.blocking.at_end;
}

/// Where it stands and wants to go the other way, the latch holds it.
bool is_latched(const ViewInTime& view, const NetworkTravel& travel, double share, Turning turning) {
    if (travel.latch < 0 || view.condition(travel.latch) == travel.latch_pulled) return false;
    return travel.travel.latched_at_start ? share <= 0 && turning == Turning::forwards
                                          : share >= 1 && turning == Turning::backwards;
}

void find_for_travel(const ViewInTime& view, int index, std::vector<Deed>& deeds) {
    const NetworkTravel& travel = view.network().travels[at(index)];
    const model::Blocking& blocking = travel.blocking;
    const int number = view.numbers().way_of_travel[at(index)];
    const double share = view.value(number);
    const bool forced = view.network().forced[at(travel.motor)];
    if (forced || travel.travel.jammed || is_held(view, travel)) return;
    const double end = far_end(view, travel);
    if (view.condition(travel.motor) == blocking.turning) {
        const Turning turning = view.integrator().turning(travel.rotor);
        const bool beyond_end = share >= end && turning == Turning::forwards;
        const bool beyond_start = share <= 0 && turning == Turning::backwards;
        if (travel.travel.round) {
            if (share >= 1 || share < 0) deeds.push_back(PutWay{number, share - std::floor(share)});
        } else if (beyond_end || beyond_start) {
            deeds.push_back(PutWay{number, beyond_end ? std::min(share, end) : 0});
            deeds.push_back(Switch{travel.motor, beyond_end ? blocking.at_end : blocking.at_start});
        } else if (is_latched(view, travel, share, turning)) {
            deeds.push_back(
                Switch{travel.motor, travel.travel.latched_at_start ? blocking.at_start : blocking.at_end});
        }
        return;
    }
    const Turning leaves = breaks_loose(view, travel.blocked, travel.rotor);
    if (is_latched(view, travel, share, leaves)) return;
    if ((leaves == Turning::forwards && share < end) || (leaves == Turning::backwards && share > 0)) {
        deeds.push_back(Switch{travel.motor, blocking.turning});
        deeds.push_back(Turn{travel.rotor, leaves});
    }
}

void find_for_follower(const ViewInTime& view, const network::NetworkFollower& follower,
                       std::vector<Deed>& deeds) {
    if (view.network().forced[at(follower.part)]) return;
    const double share = view.value(view.numbers().way_of_travel[at(follower.travel)]);
    const bool is_near = view.condition(follower.part) == follower.follower.near;
    const double towards_end = follower.follower.at_start ? -kDifferential : kDifferential;
    const int wanted = network::followed_condition(follower.follower, is_near ? share + towards_end : share);
    if (wanted != view.condition(follower.part)) deeds.push_back(Switch{follower.part, wanted});
}

void find_for_oscillator(const ViewInTime& view, int index, std::vector<Deed>& deeds) {
    const network::NetworkOscillator& oscillator = view.network().oscillators[at(index)];
    const Beat& beat = view.state().beats[at(index)];
    const int present = view.condition(oscillator.part);
    const bool runs = !view.network().forced[at(oscillator.part)] &&
                      (present == oscillator.oscillator.on || present == oscillator.oscillator.off);
    const bool counting = beat.next_s < kNever;
    const bool waits = !oscillator.watched.empty() && present == oscillator.oscillator.on &&
                       watched_a(view, oscillator) < oscillator.oscillator.starts_at_a;
    const bool can_count = runs && !waits && half_period_s(oscillator, view, false) < kNever;
    if (counting && (!runs || waits))
        deeds.push_back(StopBeat{index});
    else if (counting && view.time_s() >= beat.next_s)
        deeds.push_back(TakeBeat{index});
    else if (!counting && can_count)
        deeds.push_back(StartBeat{index});
}

}  // namespace

double watched_a(const ViewInTime& view, const network::NetworkOscillator& oscillator) {
    double current_a = 0;
    for (const int branch : oscillator.watched)
        current_a = std::max(current_a, std::abs(view.current_a(branch)));
    return current_a;
}

double half_period_s(const network::NetworkOscillator& oscillator, const ViewInTime& view, bool hurries) {
    const std::string& quantity = oscillator.oscillator.quantity;
    double rate_hz = oscillator.oscillator.rate_hz * (hurries ? 2 : 1);
    if (!quantity.empty()) rate_hz *= view.quantity(quantity);
    return rate_hz > 0 ? 0.5 / rate_hz : kNever;
}

void find_deeds(const ViewInTime& view, const std::vector<Unit>& units, std::vector<Deed>& deeds) {
    const network::Network& network = view.network();
    for (int i = 0; i < static_cast<int>(network.triggers.size()); ++i) find_for_trigger(view, i, deeds);
    for (int i = 0; i < static_cast<int>(network.travels.size()); ++i) find_for_travel(view, i, deeds);
    if (deeds.empty())
        for (const int rotor : view.numbers().rotors) find_for_rotor(view, rotor, deeds);
    for (const network::NetworkFollower& follower : network.followers)
        find_for_follower(view, follower, deeds);
    for (int i = 0; i < static_cast<int>(network.oscillators.size()); ++i)
        find_for_oscillator(view, i, deeds);
    for (int i = 0; i < static_cast<int>(units.size()); ++i) find_for_unit(view, units[at(i)], i, deeds);
    const CourseState& state = view.state();
    if (!state.to_come.empty() && view.time_s() >= state.to_come.front().at_s) deeds.push_back(CarryOutSet{});
    if (view.time_s() >= state.next_tick_s) deeds.push_back(LookAtWorld{});
}

double next_appointment_s(const CourseState& state) {
    double next_s = std::min(state.next_tick_s, kNever);
    for (const auto& waiting : state.waiting)
        if (waiting) next_s = std::min(next_s, waiting->due_s);
    for (const Beat& beat : state.beats) next_s = std::min(next_s, beat.next_s);
    for (const UnitState& unit : state.units) {
        if (unit.chart)
            next_s =
                std::min(next_s, std::max(unit.next_round_s, next_timer_s(*unit.chart).value_or(kNever)));
        if (unit.next_round_s > state.now_s) next_s = std::min(next_s, unit.next_round_s);
        for (const Duty& duty : unit.duties) next_s = std::min(next_s, duty.next_s);
    }
    if (!state.to_come.empty()) next_s = std::min(next_s, state.to_come.front().at_s);
    return next_s;
}

}  // namespace halfsplit::simulation
