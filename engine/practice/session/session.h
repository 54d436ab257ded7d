#pragma once

#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/model/circuit.h"
#include "engine/practice/scenario/scenario.h"
#include "engine/practice/session/action.h"
#include "engine/practice/session/serviced_vehicle.h"
#include "engine/practice/session/slips.h"
#include "engine/practice/session/toll.h"

namespace halfsplit::practice {

/// One thing that was done and what came of it: a line of a session's log. Nothing in it gives the hidden
/// fault away but what was observed.
struct Entry {
    int number = 0;  ///< from 1
    Action action;
    double minutes = 0;    ///< it took
    double clock_min = 0;  ///< gone by since the vehicle came in, with it
    std::vector<Observed> observed;
    std::vector<Slip> slips;
    std::string told;  ///< a hint's text

    friend bool operator==(const Entry&, const Entry&) = default;
};

/// Numbers of the entries that write down what is suspected and have not been struck out since.
std::vector<int> standing_suspicions(std::span<const Entry> entries);

/// Somebody practises on a scenario, from the vehicle's coming in to its being handed back. Borrows both.
class Session {
  public:
    /// An error: the vehicle does not come to rest in the state it comes in.
    static tl::expected<Session, std::string> begin(const Scenario& scenario, const model::Circuit& circuit);

    /// An error says why it cannot be done; then no time has gone by and nothing is logged. Nothing more can
    /// be done once the vehicle has been handed back.
    tl::expected<Entry, std::string> act(const Action& action);

    const Scenario& scenario() const { return *scenario_; }
    const model::Circuit& circuit() const { return vehicle_.circuit(); }
    const std::vector<Entry>& entries() const { return entries_; }
    const ServicedVehicle& vehicle() const { return vehicle_; }
    const OpenPlaces& open_places() const { return open_; }
    double clock_min() const { return entries_.empty() ? 0 : entries_.back().clock_min; }
    bool is_over() const { return !entries_.empty() && entries_.back().action.verb == Verb::done; }
    int hints_taken() const;

  private:
    Session(const Scenario& scenario, ServicedVehicle vehicle, OpenPlaces open);
    tl::expected<void, std::string> may(const Action& action) const;

    const Scenario* scenario_;
    ServicedVehicle vehicle_;
    OpenPlaces open_;
    std::vector<Entry> entries_;
};

}  // namespace halfsplit::practice
