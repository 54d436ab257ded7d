#include "engine/practice/verdict/verdict.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/practice/session/thing.h"

namespace halfsplit::practice {

using network::Fault;
using network::FaultSubject;

namespace {

bool is_repair(Verb verb) {
    return verb == Verb::replace || verb == Verb::mend || verb == Verb::fit;
}

bool was_needed(const Action& action, const model::Circuit& circuit, const std::vector<Fault>& faults,
                const std::vector<std::string>& blown) {
    const auto thing = find_thing(circuit, action.arguments.front());
    if (!thing) return false;
    const bool sat_on_it =
        std::ranges::any_of(faults, [&](const Fault& fault) { return sits_on(fault, *thing); });
    return sat_on_it || std::ranges::find(blown, thing->name) != blown.end();
}

/// Goes through the session again: what was repaired had to be broken just then.
std::vector<std::string> repairs_for_nothing(const Session& session) {
    std::vector<std::string> things;
    auto vehicle =
        ServicedVehicle::arrive(session.circuit(), session.scenario().faults, session.scenario().arrives_in);
    if (!vehicle) throw std::logic_error("a session's vehicle does not come to rest");
    for (const Entry& entry : session.entries()) {
        const Action& action = entry.action;
        if (!is_done_to_vehicle(action.verb)) continue;
        if (is_repair(action.verb) &&
            !was_needed(action, session.circuit(), vehicle->faults(), vehicle->blown_fuses()))
            things.push_back(action.arguments.front());
        if (!vehicle->carry_out(action)) throw std::logic_error("a session does not go the same way again");
    }
    return things;
}

std::vector<std::string> left_apart(const ServicedVehicle& vehicle) {
    std::vector<std::string> things;
    for (const std::string& name : vehicle.situation().unplugged) things.push_back(name + " is unplugged");
    for (const std::string& name : vehicle.situation().pulled)
        things.push_back(name + " is out of its socket");
    if (!vehicle.situation().attachments.empty()) things.emplace_back("the jumper lead is on");
    return things;
}

std::string skill_of_one(const model::Circuit& circuit, const Fault& fault) {
    const std::string_view kind = fault.spec->kind;
    if (fault.chafing) return "intermittent faults";
    if (kind.starts_with("short-")) return "shorts";
    if (fault.subject != FaultSubject::part)
        return kind == "high-resistance" ? "bad contacts" : "open circuits";
    const model::Part& part = circuit.parts[at(fault.part)];
    if (part.kind->element == "ground-point") return "bad grounds";
    if (part.kind->letter == "A" || part.kind->letter == "B") return "control units and senders";
    if (part.kind->letter == "F") return "fuses";
    if (part.kind->letter == "K" || part.kind->letter == "S") return "switches and relays";
    if (part.kind->letter == "G") return "battery and charging";
    return "loads";
}

}  // namespace

Verdict verdict_of(const Session& session, const BestWay& best) {
    Verdict verdict;
    verdict.is_over = session.is_over();
    for (const Fault& fault : session.vehicle().faults()) verdict.still_wrong.push_back(fault.text);
    for (const std::string& fuse : session.vehicle().blown_fuses())
        if (std::ranges::find(verdict.still_wrong, "blown:" + fuse) == verdict.still_wrong.end())
            verdict.still_wrong.push_back("blown:" + fuse);
    verdict.left_apart = left_apart(session.vehicle());
    verdict.for_nothing = repairs_for_nothing(session);
    for (const Entry& entry : session.entries()) {
        verdict.slips += static_cast<int>(entry.slips.size());
        const Verb verb = entry.action.verb;
        if (verb == Verb::look || verb == Verb::measure || verb == Verb::record || verb == Verb::inspect)
            ++verdict.questions;
    }
    verdict.hints = session.hints_taken();
    verdict.minutes = session.clock_min();
    verdict.best_min = best.minutes();
    verdict.budget_min = session.scenario().budget_min;
    verdict.is_repaired = verdict.still_wrong.empty();
    const bool is_whole = verdict.is_repaired && verdict.left_apart.empty();
    const bool nothing_was_wrong = session.scenario().faults.empty();
    verdict.is_right = verdict.is_over && is_whole && (!nothing_was_wrong || verdict.for_nothing.empty());
    return verdict;
}

std::string skill_of(const model::Circuit& circuit, const std::vector<Fault>& faults) {
    return faults.empty() ? "nothing wrong" : skill_of_one(circuit, faults.front());
}

}  // namespace halfsplit::practice
