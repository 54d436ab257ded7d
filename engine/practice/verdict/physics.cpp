#include "engine/practice/verdict/physics.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>

#include "engine/base/index.h"
#include "engine/instruments/probing.h"

namespace halfsplit::practice {

using model::Circuit;
using network::Fault;
using network::FaultSubject;

namespace {

/// Less than this is what meters and leakage let through.
constexpr double kNoCurrentA = 0.005;
/// Less than this over a fault is no loss worth a word.
constexpr double kNoLossV = 0.1;

/// Between which points a fault sits, and what carries its current.
struct Across {
    std::string from;
    std::string to;
    std::string conductor;
};

std::optional<Across> across(const Circuit& circuit, const Fault& fault) {
    if (fault.subject == FaultSubject::wire) {
        const model::Wire& wire = circuit.wires[at(fault.wire)];
        return Across{circuit.point_name(wire.from), circuit.point_name(wire.to), wire.id};
    }
    const model::Part& part = circuit.parts[at(fault.part)];
    if (fault.subject == FaultSubject::contact && part.kind->pin_policy == model::PinPolicy::counted) {
        // A coupling's pins are 1a 1b 2a 2b …; the fault names the a side.
        const std::string one = circuit.point_name({fault.part, fault.pin});
        return Across{one, circuit.point_name({fault.part, fault.pin + 1}), one.substr(0, one.size() - 1)};
    }
    if (fault.subject == FaultSubject::contact) {
        const std::string point = circuit.point_name({fault.part, fault.pin});
        return Across{point, point + "@part", point};
    }
    if (is_one_point(part)) return Across{part.id, "body", part.id};
    if (part.pins.size() < 2) return std::nullopt;
    return Across{circuit.point_name({fault.part, 0}), circuit.point_name({fault.part, 1}),
                  circuit.point_name({fault.part, 0})};
}

std::string number_of(double value, const char* unit) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), std::abs(value) < 1 ? "%.2f %s" : "%.1f %s", value, unit);
    return text.data();
}

bool has_point(const simulation::Settled& settled, const std::string& point) {
    return settled.network.point_nodes.contains(point);
}

double loss_v(const simulation::Settled& settled, const Across& where) {
    if (!has_point(settled, where.from) || !has_point(settled, where.to)) return 0;
    return std::abs(instruments::voltage_between(settled, where.from, where.to));
}

std::string where_it_is(const Circuit& circuit, const Fault& fault, const Across& where) {
    if (fault.subject == FaultSubject::wire) return "wire " + where.conductor;
    if (fault.subject == FaultSubject::contact) return "contact " + where.conductor;
    const model::Part& part = circuit.parts[at(fault.part)];
    return part.id + " (" + part.title + ")";
}

/// How the fault makes the voltages what they are, by what it lets through and what it takes.
std::string cause_of(const Circuit& circuit, const Fault& fault, const simulation::Settled& broken,
                     const simulation::Settled& sound) {
    const auto where = across(circuit, fault);
    const bool is_between_two = fault.other >= 0;  // nothing is lost there, it is another way
    if (!where || is_between_two) return std::string(fault.spec->text);
    const double volts = loss_v(broken, *where);
    const double sound_v = loss_v(sound, *where);
    const double amperes = std::abs(instruments::current_through(broken, where->conductor));
    const double sound_a = std::abs(instruments::current_through(sound, where->conductor));
    const std::string it = where_it_is(circuit, fault, *where);
    if (std::string_view(fault.spec->kind).starts_with("short-"))
        return "Through the short of " + it +
               " current takes a way around the load: " + number_of(amperes, "A") + " in " +
               where->conductor + ", where a sound vehicle has " + number_of(sound_a, "A") + ".";
    if (amperes < kNoCurrentA && volts > kNoLossV)
        return "No current flows through " + it + ", so nothing is lost on the way to it and all of " +
               number_of(volts, "V") + " stands across it.";
    if (amperes < kNoCurrentA)
        return "No current flows through " + it + ", where a sound vehicle has " + number_of(sound_a, "A") +
               ": it is dead on both sides.";
    if (volts - sound_v > kNoLossV)
        return number_of(amperes, "A") + " flows through " + it + " and loses " + number_of(volts, "V") +
               " there (" + number_of(sound_v, "V") +
               " in a sound vehicle); what lies in its way gets what is left.";
    return it + " carries " + number_of(amperes, "A") + ", where a sound vehicle has " +
           number_of(sound_a, "A") + ".";
}

/// The first of those that told most, be it nothing that was not known already.
int key_entry(const Session& session, const Hindsight& hindsight) {
    constexpr double kNothingWorthTelling = 1e-6;
    int key = -1;
    double most = -2 * kNothingWorthTelling;
    for (const StepInHindsight& step : hindsight.steps) {
        const bool is_measured = session.entries()[at(step.entry)].action.verb == Verb::measure;
        if (!is_measured || step.was_in_order || step.bits <= most + kNothingWorthTelling) continue;
        most = step.bits;
        key = step.entry;
    }
    return key;
}

/// The vehicle as it stood when that was done, and what it answered.
struct Moment {
    ServicedVehicle vehicle;
    std::vector<Observed> answer;
};

std::optional<Moment> moment_of(const Session& session, const std::vector<Fault>& faults, int entry) {
    auto vehicle = ServicedVehicle::arrive(session.circuit(), faults, session.scenario().arrives_in);
    if (!vehicle) return std::nullopt;
    std::vector<Observed> answer;
    for (int i = 0; i <= entry; ++i) {
        const Action& action = session.entries()[at(i)].action;
        if (!is_done_to_vehicle(action.verb)) continue;
        const auto effect = vehicle->carry_out(action);
        if (effect && i == entry) answer = effect->observed;
    }
    return Moment{std::move(*vehicle), std::move(answer)};
}

}  // namespace

Physics physics_of(const Session& session, const Hindsight& hindsight) {
    Physics physics;
    const std::vector<Fault>& faults = session.scenario().faults;
    physics.entry = key_entry(session, hindsight);
    if (faults.empty() || physics.entry < 0) return physics;
    const auto broken = moment_of(session, faults, physics.entry);
    const auto sound = moment_of(session, {}, physics.entry);
    if (!broken || !sound) return physics;
    const bool tells = broken->answer != sound->answer;
    if (!tells) return {};
    physics.cause =
        cause_of(session.circuit(), faults.front(), broken->vehicle.settled(), sound->vehicle.settled());
    const Entry& entry = session.entries()[at(physics.entry)];
    if (entry.observed.empty()) return physics;
    physics.reading =
        "That is why the " + entry.observed.front().about + " showed " + entry.observed.front().shown;
    if (!sound->answer.empty() && sound->answer.front().shown != entry.observed.front().shown)
        physics.reading += ", where a sound vehicle has " + sound->answer.front().shown;
    physics.reading += ".";
    return physics;
}

}  // namespace halfsplit::practice
