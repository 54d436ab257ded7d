#include "engine/practice/session/session.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/instruments/instrument.h"

namespace halfsplit::practice {

std::vector<int> standing_suspicions(std::span<const Entry> entries) {
    std::vector<int> standing;
    for (const Entry& entry : entries) {
        if (entry.action.verb == Verb::suspect) standing.push_back(entry.number);
        if (entry.action.verb == Verb::strike)
            std::erase_if(standing, [&](int number) {
                return std::to_string(number) == entry.action.arguments.front();
            });
    }
    return standing;
}

Session::Session(const Scenario& scenario, ServicedVehicle vehicle, OpenPlaces open)
    : scenario_(&scenario), vehicle_(std::move(vehicle)), open_(std::move(open)) {}

tl::expected<Session, std::string> Session::begin(const Scenario& scenario, const model::Circuit& circuit) {
    auto vehicle = ServicedVehicle::arrive(circuit, scenario.faults, scenario.arrives_in);
    if (!vehicle) return tl::unexpected(vehicle.error());
    return Session(scenario, std::move(*vehicle), OpenPlaces(circuit.places.size(), 0));
}

int Session::hints_taken() const {
    return static_cast<int>(
        std::ranges::count_if(entries_, [](const Entry& entry) { return entry.action.verb == Verb::hint; }));
}

tl::expected<void, std::string> Session::may(const Action& action) const {
    if (is_over()) return tl::unexpected(std::string("the vehicle has been handed back"));
    if (action.verb == Verb::hint && at(hints_taken()) >= scenario_->hints.size())
        return tl::unexpected(
            std::string(scenario_->hints.empty() ? "this job has no hints" : "there are no more hints"));
    if (action.verb == Verb::strike && std::ranges::none_of(standing_suspicions(entries_), [&](int number) {
            return std::to_string(number) == action.arguments.front();
        }))
        return tl::unexpected("nothing that is still suspected was written down in step '" +
                              action.arguments.front() + "'");
    if (action.verb != Verb::measure && action.verb != Verb::record) return {};
    const std::string& instrument = action.arguments.front();
    const bool is_there = instruments::find_instrument(instrument) != nullptr;
    if (action.verb == Verb::record || !is_there ||
        std::ranges::find(scenario_->instruments, instrument) != scenario_->instruments.end())
        return {};
    return tl::unexpected("there is no " + instrument + " at this job; " + listed(scenario_->instruments) +
                          " can be had");
}

tl::expected<Entry, std::string> Session::act(const Action& action) {
    if (const auto allowed = may(action); !allowed) return tl::unexpected(allowed.error());
    Entry entry;
    entry.number = static_cast<int>(entries_.size()) + 1;
    entry.action = action;
    if (is_done_to_vehicle(action.verb)) {
        const ServicedVehicle before = vehicle_;
        const auto done = vehicle_.carry_out(action);
        if (!done) {
            vehicle_ = before;
            return tl::unexpected(done.error());
        }
        std::vector<Action> actions;
        for (const Entry& each : entries_) actions.push_back(each.action);
        entry.slips = slips_of(before, action, *done, actions);
        entry.minutes = toll_of(circuit(), action, done->seconds, open_);
        entry.observed = done->observed;
    } else if (action.verb == Verb::hint) {
        entry.told = scenario_->hints[at(hints_taken())];
    }
    entry.clock_min = clock_min() + entry.minutes;
    entries_.push_back(entry);
    return entry;
}

}  // namespace halfsplit::practice
