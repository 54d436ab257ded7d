#include "engine/practice/session/serviced_vehicle.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/diagnosis/swing.h"
#include "engine/instruments/jumper_lead.h"
#include "engine/instruments/probing.h"
#include "engine/simulation/course.h"

namespace halfsplit::practice {

using model::Circuit;
using network::Situation;
using simulation::Settled;

namespace {

std::string first_message(const Diagnostics& problems) {
    return problems.empty() ? "that cannot be done" : problems.front().message;
}

/// What is heard while one waits belongs to what was operated before.
bool does_operate(Verb verb) {
    switch (verb) {
        case Verb::wait:
        case Verb::look:
        case Verb::measure:
        case Verb::record:
        case Verb::inspect:
            return false;
        default:
            return true;
    }
}

}  // namespace

ServicedVehicle::ServicedVehicle(const Circuit& circuit, Settled settled)
    : circuit_(&circuit), onlooker_(circuit), settled_(std::move(settled)) {}

tl::expected<ServicedVehicle, std::string> ServicedVehicle::arrive(const Circuit& circuit,
                                                                   std::vector<network::Fault> faults,
                                                                   int state) {
    Situation situation;
    situation.faults = std::move(faults);
    auto settled = simulation::settle(circuit, situation, circuit.states[at(state)].steps);
    if (!settled) return tl::unexpected(first_message(settled.error()));
    return ServicedVehicle(circuit, std::move(*settled));
}

bool ServicedVehicle::is_put_together() const {
    return situation().unplugged.empty() && situation().pulled.empty() && situation().attachments.empty();
}

Done ServicedVehicle::carry_out(const Action& action) {
    const auto clicked_before = clicked_;
    if (does_operate(action.verb)) clicked_.emplace();
    auto done = carry_out_now(action);
    if (!done) clicked_ = clicked_before;
    return done;
}

Done ServicedVehicle::carry_out_now(const Action& action) {
    switch (action.verb) {
        case Verb::state:
            return bring_to_state(action.arguments.front());
        case Verb::set:
            return set(action);
        case Verb::press:
            return press(action);
        case Verb::wait:
            return wait(action);
        case Verb::look:
            return look(action);
        case Verb::measure:
            return measure(action);
        case Verb::record:
            return record(action);
        case Verb::pull:
        case Verb::push:
        case Verb::unplug:
        case Verb::plug:
            return take_apart(action);
        case Verb::bridge:
        case Verb::unbridge:
            return bridge(action);
        case Verb::swap:
            return swap(action);
        case Verb::fit:
            return fit(action);
        case Verb::inspect:
            return inspect(action);
        case Verb::replace:
        case Verb::mend:
            return repair(action);
        case Verb::suspect:
        case Verb::strike:
        case Verb::hint:
        case Verb::done:
            break;
    }
    throw std::invalid_argument("that does nothing to a vehicle");
}

Situation ServicedVehicle::as_it_is() const {
    Situation situation;
    situation.faults = faults();
    situation.unplugged = settled_.situation.unplugged;
    situation.pulled = settled_.situation.pulled;
    situation.attachments = settled_.situation.attachments;
    for (const std::string& fuse : blown_fuses()) situation.positions[fuse] = "blown";
    return situation;
}

std::vector<std::string> ServicedVehicle::blown_fuses() const {
    std::vector<std::string> blown;
    for (int part = 0; part < static_cast<int>(circuit_->parts.size()); ++part)
        if (condition_of(part) == "blown") blown.push_back(circuit_->parts[at(part)].id);
    return blown;
}

Done ServicedVehicle::bring_to_state(const std::string& id) {
    const model::OperatingState* state = circuit_->find_state(id);
    if (state == nullptr) {
        std::vector<std::string> known;
        for (const model::OperatingState& each : circuit_->states) known.push_back(each.id);
        return tl::unexpected("the circuit has no state '" + id + "'; " + listed(known) + " is expected" +
                              did_you_mean(id, known));
    }
    const Appearance before = appearance();
    Situation situation = as_it_is();
    // The jumper lead is put on when the vehicle is there: its fuse goes before any of the vehicle's.
    const std::vector<network::Attachment> leads = std::exchange(situation.attachments, {});
    auto settled = simulation::settle(*circuit_, situation, state->steps);
    if (!settled) return tl::unexpected(first_message(settled.error()));
    stand(std::move(*settled));
    Effect effect;
    if (!leads.empty()) {
        auto joined = join(leads.front());
        if (!joined) return joined;
        effect.mishaps = joined->mishaps;
    }
    const Appearance& now = appearance();
    effect.observed = onlooker_.clicks(before, now);
    remember_clicks(onlooker_.relays_changed(before, now));
    std::ranges::move(onlooker_.changes(before, now), std::back_inserter(effect.observed));
    return effect;
}

Done ServicedVehicle::run(double seconds, std::vector<simulation::TimedSet> sets) {
    const Appearance before = appearance();
    auto course = simulation::Course::begin(*circuit_, settled_, std::move(sets));
    if (!course) return tl::unexpected(first_message(course.error()));
    if (const auto gone = course->run_until(seconds); !gone)
        return tl::unexpected(first_message(gone.error()));
    Effect effect;
    effect.seconds = seconds;
    const std::vector<simulation::CourseEvent> events = course->take_events();
    effect.observed = onlooker_.happenings(events);
    remember_clicks(onlooker_.relays_in(events));
    auto settled = course->settled_as_it_stands();
    if (!settled) return tl::unexpected(first_message(settled.error()));
    stand(std::move(*settled));
    std::ranges::move(onlooker_.changes(before, appearance()), std::back_inserter(effect.observed));
    watch_jumper(effect);
    return effect;
}

void ServicedVehicle::remember_clicks(const std::vector<std::string>& relays) {
    if (clicked_) clicked_->insert(relays.begin(), relays.end());
}

void ServicedVehicle::stand(Settled settled) {
    settled_ = std::move(settled);
    appearance_.reset();
    watched_.reset();
}

/// Looked at once only as long as it stands so: a whole vehicle is followed for a while for it.
const Appearance& ServicedVehicle::appearance() {
    if (!appearance_) appearance_ = onlooker_.look_at(settled_);
    return *appearance_;
}

/// By somebody who came to look, and waits for what comes at intervals.
const Appearance& ServicedVehicle::watched() {
    if (!appearance().is_awaited) return *appearance_;
    if (!watched_) watched_ = onlooker_.look_at(settled_, diagnosis::kWatchS);
    return *watched_;
}

Done ServicedVehicle::change_to(const Situation& situation) {
    const Appearance before = appearance();
    auto settled = simulation::settle_again(*circuit_, settled_, situation);
    if (!settled) return tl::unexpected(first_message(settled.error()));
    stand(std::move(*settled));
    Effect effect;
    const Appearance& now = appearance();
    effect.observed = onlooker_.clicks(before, now);
    remember_clicks(onlooker_.relays_changed(before, now));
    std::ranges::move(onlooker_.changes(before, now), std::back_inserter(effect.observed));
    watch_jumper(effect);
    return effect;
}

void ServicedVehicle::watch_jumper(Effect& effect) {
    if (situation().attachments.empty()) return;
    const double current_a = std::abs(instruments::current_through(settled_, instruments::kJumperName));
    if (current_a <= instruments::kJumperFuseA) return;
    Situation without = situation();
    without.attachments.clear();
    auto settled = simulation::settle_again(*circuit_, settled_, without);
    if (settled) stand(std::move(*settled));
    effect.mishaps.emplace_back(kJumperBlew);
}

}  // namespace halfsplit::practice
