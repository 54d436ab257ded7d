#include "engine/practice/session/serviced_vehicle.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/diagnosis/dictionary/sign.h"
#include "engine/instruments/jumper_lead.h"
#include "engine/instruments/probing.h"
#include "engine/simulation/course.h"

namespace halfsplit::practice {

using model::Circuit;
using network::Situation;
using simulation::Settled;

namespace {

/// Somebody who turns a key or presses a button looks what happens.
constexpr double kOperatingS = 1;
constexpr double kLettingGoS = 0.5;
/// Nobody stands beside a vehicle for longer than this without doing anything.
constexpr double kLongestWaitS = 600;

tl::expected<double, std::string> seconds_in(const std::string& text) {
    const auto seconds = read_number(text);
    if (!seconds || *seconds <= 0 || *seconds > kLongestWaitS)
        return tl::unexpected("'" + text + "' is no time; seconds from 0 to " + number_text(kLongestWaitS) +
                              " are expected");
    return *seconds;
}

std::string first_message(const Diagnostics& problems) {
    return problems.empty() ? "that cannot be done" : problems.front().message;
}

/// The positions of switches and doors that a hand can set.
tl::expected<void, std::string> may_be_set(const Circuit& circuit, const std::string& what) {
    if (circuit.find_quantity(what) != nullptr) return {};
    std::vector<std::string> known;
    for (const model::Part& part : circuit.parts)
        if (part.kind->operation == model::Operation::person) known.push_back(part.id);
    for (const model::Quantity& quantity : circuit.quantities) known.push_back(quantity.id);
    if (std::ranges::find(known, what) != known.end()) return {};
    return tl::unexpected("'" + what + "' is nothing a hand can set" + did_you_mean(what, known));
}

/// nullopt where the value is one the thing can have.
std::optional<std::string> wrong_value(const Circuit& circuit, const std::string& what,
                                       const std::string& to) {
    if (const model::Quantity* quantity = circuit.find_quantity(what)) {
        const auto number = read_number(to);
        if (number && *number >= quantity->min && *number <= quantity->max) return std::nullopt;
        return "'" + to + "' is no value for " + what + "; " + number_text(quantity->min) + " to " +
               number_text(quantity->max) + " " + quantity->unit + " is expected";
    }
    const model::Part& part = *circuit.find_part(what);
    std::vector<std::string> known;
    for (const model::Position& position : part.positions) known.push_back(position.id);
    if (std::ranges::find(known, to) != known.end()) return std::nullopt;
    return what + " has no position '" + to + "'; " + listed(known) + " is expected" +
           did_you_mean(to, known);
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
    effect.observed = onlooker_.happenings(course->take_events());
    auto settled = course->settled_as_it_stands();
    if (!settled) return tl::unexpected(first_message(settled.error()));
    stand(std::move(*settled));
    std::ranges::move(onlooker_.changes(before, appearance()), std::back_inserter(effect.observed));
    watch_jumper(effect);
    return effect;
}

Done ServicedVehicle::set(const Action& action) {
    const std::string& what = action.arguments[0];
    const std::string& to = action.arguments[1];
    if (const auto may = may_be_set(*circuit_, what); !may) return tl::unexpected(may.error());
    if (const auto wrong = wrong_value(*circuit_, what, to)) return tl::unexpected(*wrong);
    double over_s = 0;
    if (action.arguments.size() > 2) {
        const auto given = seconds_in(action.arguments[2]);
        if (!given) return tl::unexpected(given.error());
        if (circuit_->find_quantity(what) == nullptr)
            return tl::unexpected(what + " does not change gradually; only quantities take 'over'");
        over_s = *given;
    }
    return run(over_s + kOperatingS, {{0, what, to, over_s, {}}});
}

Done ServicedVehicle::press(const Action& action) {
    const std::string& what = action.arguments[0];
    const std::string& to = action.arguments[1];
    const model::Part* part = circuit_->find_part(what);
    if (const auto may = may_be_set(*circuit_, what); !may) return tl::unexpected(may.error());
    if (part == nullptr) return tl::unexpected(what + " cannot be pressed; set it");
    if (const auto wrong = wrong_value(*circuit_, what, to)) return tl::unexpected(*wrong);
    double hold_s = kOperatingS;
    if (action.arguments.size() > 2) {
        const auto given = seconds_in(action.arguments[2]);
        if (!given) return tl::unexpected(given.error());
        hold_s = *given;
    }
    const std::string back = position_after_letting_go(*part, to);
    const Settled before = settled_;
    auto pressed = run(hold_s, {{0, what, to, 0, {}}});
    if (!pressed) return pressed;
    auto released = run(kLettingGoS, {{0, what, back, 0, {}}});
    if (!released) {
        stand(before);
        return released;
    }
    pressed->seconds += released->seconds;
    std::ranges::move(released->observed, std::back_inserter(pressed->observed));
    std::ranges::move(released->mishaps, std::back_inserter(pressed->mishaps));
    return pressed;
}

std::string ServicedVehicle::position_after_letting_go(const model::Part& part,
                                                       const std::string& pressed) const {
    const auto position = std::ranges::find(part.positions, pressed, &model::Position::id);
    const auto set_before = situation().positions.find(part.id);
    const bool springs_back = position->momentary || part.kind->element == "push-button" ||
                              set_before == situation().positions.end();
    return springs_back ? part.positions.front().id : set_before->second;
}

Done ServicedVehicle::wait(const Action& action) {
    const auto seconds = seconds_in(action.arguments.front());
    if (!seconds) return tl::unexpected(seconds.error());
    return run(*seconds, {});
}

Done ServicedVehicle::look(const Action& action) {
    const Appearance& now = appearance();
    if (action.arguments.empty()) return Effect{onlooker_.describe(now), {}, 0};
    const std::string& name = action.arguments.front();
    std::vector<Observed> seen = onlooker_.describe(now, name);
    if (!seen.empty()) return Effect{std::move(seen), {}, 0};
    std::vector<std::string> known;
    for (const diagnosis::SignSource& source : onlooker_.sources()) known.push_back(source.name);
    return tl::unexpected("nothing is seen or heard of '" + name + "'" + did_you_mean(name, known) +
                          "; to take it in hand, inspect it");
}

void ServicedVehicle::stand(Settled settled) {
    settled_ = std::move(settled);
    appearance_.reset();
}

/// Looked at once only as long as it stands so: a whole vehicle is followed for a while for it.
const Appearance& ServicedVehicle::appearance() {
    if (!appearance_) appearance_ = onlooker_.look_at(settled_);
    return *appearance_;
}

Done ServicedVehicle::change_to(const Situation& situation) {
    const Appearance before = appearance();
    auto settled = simulation::settle_again(*circuit_, settled_, situation);
    if (!settled) return tl::unexpected(first_message(settled.error()));
    stand(std::move(*settled));
    Effect effect;
    const Appearance& now = appearance();
    effect.observed = onlooker_.clicks(before, now);
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
