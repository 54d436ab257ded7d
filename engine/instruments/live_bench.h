#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "engine/instruments/instrument.h"
#include "engine/simulation/course.h"

namespace halfsplit::instruments {

/// A circuit that is at work while somebody operates it, breaks it and measures at it: time goes by as it is
/// told to. Borrows the circuit.
class LiveBench {
  public:
    /// In one of the circuit's states (-1: as it was written down), with what is broken, unplugged or bridged
    /// from the start. An error: it does not come to rest.
    static tl::expected<LiveBench, Diagnostics> begin(const model::Circuit& circuit, int state,
                                                      const network::Situation& situation);

    /// Time goes by. Not too much at once: nothing can be done meanwhile.
    tl::expected<void, Diagnostics> advance(double seconds);
    /// A switch, a door, a quantity.
    tl::expected<void, Diagnostics> set(const std::string& what, const std::string& to);
    /// What is wrong, unplugged, pulled or bridged becomes another; the rest goes on as it was.
    tl::expected<void, Diagnostics> change(const network::Situation& situation);

    const model::Circuit& circuit() const { return *circuit_; }
    /// As it is now, to be changed and handed to change().
    const network::Situation& situation() const { return course_.situation(); }
    double now_s() const { return course_.now_s(); }
    bool is_steady() const { return course_.is_steady(); }
    const simulation::Course& course() const { return course_; }
    /// What happened since it was last asked.
    std::vector<simulation::CourseEvent> take_events() { return course_.take_events(); }

    /// Against the body, in V. The point must exist.
    double potential_v(std::string_view point) const;
    /// Of everything that has this name: a wire from its "from" to its "to", a plug contact, an element.
    double current_a(std::string_view name) const;
    /// All potentials and currents as they are now.
    network::Solution solution() const;
    /// What an instrument would show now, were it brought there.
    Measured read(std::string_view instrument_id, const Leads& leads) const;

  private:
    LiveBench(const model::Circuit& circuit, simulation::Course course);

    const model::Circuit* circuit_;
    simulation::Course course_;
};

}  // namespace halfsplit::instruments
