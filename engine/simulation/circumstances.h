#pragma once

#include <memory>
#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/deed.h"
#include "engine/simulation/operating_point.h"
#include "engine/simulation/unit.h"
#include "engine/simulation/view_in_time.h"

namespace halfsplit::simulation {

/// A circuit between two steps of time: its network and what that stores, the state a course goes on from,
/// and what deeds do to them.
class Circumstances {
  public:
    /// `state` has a situation the network was built in; the rest of it is filled in here and by begin_at().
    Circumstances(const model::Circuit& circuit, network::Network network, CourseState state);

    /// Everything stored as it is at rest.
    void begin_at(const OperatingPoint& point);
    /// Everything stored as the state says; false where that is not of this network.
    bool resume();

    /// Does them in order and brings the network up to date.
    tl::expected<void, Diagnostics> do_all(const std::vector<Deed>& deeds);

    /// Goes on in another situation.
    tl::expected<void, Diagnostics> change(const network::Situation& situation);

    const network::Network& network() const { return network_; }
    Integrator& integrator() { return *integrator_; }
    const Integrator& integrator() const { return *integrator_; }
    const Numbers& numbers() const { return numbers_; }
    const std::vector<Unit>& units() const { return units_; }
    const CourseState& state() const { return state_; }
    CourseState& state() { return state_; }
    std::vector<CourseEvent>& events() { return events_; }
    /// The view at a share of the step that was tried, which is then.
    ViewInTime view(double time_s, double share) const {
        return {network_, *integrator_, numbers_, state_, time_s, share};
    }

    Diagnostics no_solution(const network::NoSolution& failure) const;
    Diagnostics chatters(const std::vector<Deed>& deeds) const;

  private:
    void connect();
    void connect_changes();
    void size_state();
    void switch_to(int slot, int condition);
    void tell(int slot, int condition);
    void follow_beats(std::string_view quantity, double rate_factor);
    tl::expected<void, Diagnostics> set_quantity(const std::string& id, double value);
    void take_conditions(const network::Network& built, const network::Situation& situation);
    void take(network::Network built);
    tl::expected<void, Diagnostics> rebuild();
    void take_values(network::Network built);
    void take_structure(network::Network built);
    tl::expected<void, Diagnostics> do_one(const Deed& deed);
    tl::expected<void, Diagnostics> carry_out_next_set();
    tl::expected<void, Diagnostics> look_at_world();
    void put_way(const std::string& mechanism, double share);
    void take_beat(int oscillator);
    void turn(const Turn& deed);
    tl::expected<void, Diagnostics> do_to_unit(const Deed& deed);
    tl::expected<void, Diagnostics> power(int unit, bool has_power);
    tl::expected<void, Diagnostics> act(int unit);
    void turn_input(const InputTurns& deed);
    void trip(const DriverTrips& deed);
    void take_duty(const TakeDuty& deed);
    void obey(int unit);
    void drive(int unit, int driver, const model::chart::DriverLevel& level);
    void tell_states(int unit, const std::vector<int>& before);

    const model::Circuit* circuit_;
    network::Network network_;
    std::unique_ptr<Integrator> integrator_;
    Numbers numbers_;
    std::vector<Unit> units_;
    std::vector<std::vector<int>> branches_of_slot_;
    CourseState state_;
    std::vector<CourseEvent> events_;
    bool network_changed_ = false;
};

}  // namespace halfsplit::simulation
