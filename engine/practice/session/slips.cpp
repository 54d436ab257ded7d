#include "engine/practice/session/slips.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/instruments/probing.h"
#include "engine/practice/session/thing.h"
#include "engine/simulation/settle.h"

namespace halfsplit::practice {

using model::Circuit;

namespace {

/// Less than this at a pin is what leaks through other parts.
constexpr double kLiveV = 1;

bool is_ignition_on(const ServicedVehicle& vehicle) {
    for (const model::Part& part : vehicle.circuit().parts) {
        if (part.kind->element != "ignition-switch" || part.positions.empty()) continue;
        const auto position = vehicle.situation().positions.find(part.id);
        if (position != vehicle.situation().positions.end() && position->second != part.positions.front().id)
            return true;
    }
    return false;
}

bool is_any_of(const model::Part& part, std::initializer_list<std::string_view> elements) {
    return std::ranges::find(elements, part.kind->element) != elements.end();
}

const model::Part* part_of(const ServicedVehicle& vehicle, const Action& action) {
    const auto thing = find_thing(vehicle.circuit(), action.arguments.front());
    return thing && thing->part >= 0 ? &vehicle.circuit().parts[at(thing->part)] : nullptr;
}

bool is_battery_off(const ServicedVehicle& vehicle) {
    return std::ranges::any_of(vehicle.circuit().parts, [&](const model::Part& part) {
        return part.kind->element == "battery" && vehicle.situation().unplugged.contains(part.id);
    });
}

/// The battery's, the alternator's and the main links' cables carry what no fuse limits.
bool is_before_all_fuses(const model::Part& part) {
    return is_any_of(part, {"battery", "alternator", "fusible-link"});
}

class Slips {
  public:
    Slips(const ServicedVehicle& vehicle, const Action& action, const Effect& effect,
          const std::vector<Action>& before)
        : vehicle_(vehicle), action_(action), effect_(effect), before_(before) {}

    std::vector<Slip> take() {
        switch (action_.verb) {
            case Verb::plug:
            case Verb::unplug:
                of_plugging();
                break;
            case Verb::measure:
                of_measuring();
                break;
            case Verb::bridge:
                of_bridging();
                break;
            case Verb::fit:
                of_fitting();
                break;
            case Verb::replace:
            case Verb::mend:
            case Verb::inspect:
                of_handling();
                break;
            default:
                break;
        }
        for (const std::string& mishap : effect_.mishaps)
            add(mishap, "What it joined had next to no resistance");
        return std::move(slips_);
    }

  private:
    void add(std::string what, std::string why) { slips_.push_back({std::move(what), std::move(why)}); }

    void of_plugging() {
        if (is_ignition_on(vehicle_))
            add("a plug was handled with the ignition on",
                "Contacts arc, and the spike can destroy a control unit: ignition off and key out first");
    }

    void of_measuring() {
        const std::string& instrument = action_.arguments.front();
        if (instrument == "ohmmeter" && is_live_at_leads())
            add("an ohmmeter was put on a live circuit",
                "It measures with a source of its own: the reading is worthless and the meter may be "
                "damaged");
        const bool draws = instrument == "test-lamp" || instrument == "jumper";
        if (draws && is_on_electronics())
            add("a " + instrument + " was put on a sender or control unit",
                "Its current can destroy what drives the signal: use a voltmeter of high resistance");
        const bool is_ammeter = instrument == "ammeter" || instrument == "milliammeter";
        if ((is_ammeter || instrument == "jumper") && !effect_.observed.empty() &&
            effect_.observed.front().shown.find("blown") != std::string::npos)
            add("the " + instrument + "'s fuse has blown", "More flowed there than it can carry");
    }

    void of_bridging() {
        if (is_on_electronics())
            add("a jumper lead was put on a sender or control unit",
                "It can destroy it: only as the maker's instructions allow");
    }

    void of_fitting() {
        const auto thing = find_thing(vehicle_.circuit(), action_.arguments[0]);
        const auto rating_a = read_number(action_.arguments[1]);
        if (!thing || thing->part < 0 || !rating_a) return;
        const model::Part& fuse = vehicle_.circuit().parts[at(thing->part)];
        if (*rating_a > rated_a(fuse))
            add("a fuse of a higher rating was fitted in " + fuse.id,
                "The wire behind it is the fuse now: it can burn");
        if (was_fitted_with_nothing_found_since())
            add("a second fuse was fitted in " + fuse.id,
                "The first one blew for a reason: find it before the next one");
    }

    /// Who has mended or replaced something since the last fuse may have found the reason.
    bool was_fitted_with_nothing_found_since() const {
        bool was_fitted = false;
        for (const Action& each : before_) {
            if (each.verb == Verb::mend || each.verb == Verb::replace) was_fitted = false;
            if (each.verb == Verb::fit && each.arguments.front() == action_.arguments.front())
                was_fitted = true;
        }
        return was_fitted;
    }

    void of_handling() {
        const model::Part* part = part_of(vehicle_, action_);
        if (part == nullptr) return;
        const bool moves = is_any_of(*part, {"motor", "mechanism", "lock-actuator"});
        if (moves && is_ignition_on(vehicle_))
            add("hands were at " + part->id + " with the ignition on",
                "It may start without warning: ignition off, hands clear");
        if (action_.verb != Verb::inspect && is_before_all_fuses(*part) && !is_battery_off(vehicle_))
            add("work on " + part->id + " with the battery connected",
                "No fuse limits what flows there: disconnect the battery's ground first");
    }

    bool is_on_electronics() const {
        for (std::size_t i = action_.verb == Verb::measure ? 1 : 0; i < action_.arguments.size(); ++i)
            if (instruments::is_electronic(vehicle_.circuit(), action_.arguments[i])) return true;
        return false;
    }

    bool is_live_at_leads() const {
        const simulation::Settled& settled = vehicle_.settled();
        const std::string against = action_.arguments.size() > 2 ? action_.arguments[2] : "body";
        for (const std::string& point : {action_.arguments[1], against}) {
            const auto node = settled.network.point_nodes.find(point);
            if (node == settled.network.point_nodes.end() || node->second == network::kBody) continue;
            const bool floats = settled.point.floating[at(node->second)];
            if (!floats && std::abs(settled.point.potential_at(node->second)) > kLiveV) return true;
        }
        return false;
    }

    const ServicedVehicle& vehicle_;
    const Action& action_;
    const Effect& effect_;
    const std::vector<Action>& before_;
    std::vector<Slip> slips_;
};

}  // namespace

std::vector<Slip> slips_of(const ServicedVehicle& vehicle_before, const Action& action, const Effect& effect,
                           const std::vector<Action>& before) {
    return Slips(vehicle_before, action, effect, before).take();
}

}  // namespace halfsplit::practice
