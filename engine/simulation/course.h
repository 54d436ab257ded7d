#pragma once

#include <vector>

#include <tl/expected.hpp>

#include "engine/base/diagnostic.h"
#include "engine/model/circuit.h"
#include "engine/network/network.h"
#include "engine/simulation/circumstances.h"
#include "engine/simulation/course_state.h"
#include "engine/simulation/deed.h"
#include "engine/simulation/settle.h"

namespace halfsplit::simulation {

/// A circuit in the course of time: operated, with relays that pull in, motors that run into their stops,
/// fuses that heat and blow. Deterministic: the same beginning and the same sets give the same to the last
/// bit. What switches is located to kEventS.
class Course {
  public:
    /// Begins at 0 s with the circuit as it has settled (instruments connected there take part).
    static tl::expected<Course, Diagnostics> begin(const model::Circuit& circuit, const Settled& settled,
                                                   std::vector<TimedSet> to_come);
    /// Goes on from a saved state.
    static tl::expected<Course, Diagnostics> resume(const model::Circuit& circuit, const CourseState& state);

    /// Goes on to that time, which must not lie before now. An error: the circuit chatters without end, or
    /// has no solution.
    tl::expected<void, Diagnostics> run_until(double time_s);

    /// Sets something now, as a TimedSet would.
    tl::expected<void, Diagnostics> set(const std::string& what, const std::string& to);
    /// Goes on in another situation: what is set, what is wrong, what is unplugged or connected. What has no
    /// place in it any more is forgotten, what is new begins empty.
    tl::expected<void, Diagnostics> change(const network::Situation& situation);
    /// From here on time is counted from 0 s.
    void count_from_now();

    double now_s() const { return now_s_; }
    /// Potential of a node (network::kBody: 0) and current of a branch, now.
    double potential_v(int node) const;
    double current_a(int branch) const;
    const network::Network& network() const { return circumstances_.network(); }
    const std::vector<int>& conditions() const { return circumstances_.state().conditions; }
    const network::Situation& situation() const { return circumstances_.state().situation; }
    /// Percent of the way of what moves, by index into network().travels.
    double way_percent(int travel) const;
    /// Nothing moves any more, and nothing is to come.
    bool is_steady() const;
    /// What the circuit would come to if nothing switched any more from now on.
    tl::expected<Settled, Diagnostics> settled_as_it_stands() const;

    /// The last state before now from which everything up to now and beyond follows.
    CourseState state() const;
    /// What happened since it was last asked.
    std::vector<CourseEvent> take_events();

  private:
    Course(const model::Circuit& circuit, network::Network network, CourseState state);

    tl::expected<void, Diagnostics> try_next_step();
    tl::expected<double, Diagnostics> try_within_tolerance(double step_s);
    tl::expected<double, Diagnostics> try_step(double step_s);
    bool has_deeds_at(double share, std::vector<Deed>& deeds) const;
    tl::expected<void, Diagnostics> stop_at_first_deed();
    tl::expected<void, Diagnostics> finish_step();
    tl::expected<void, Diagnostics> settle_now();
    tl::expected<void, Diagnostics> stop_here();
    ViewInTime view(double share) const;
    double share_now() const;

    const model::Circuit* circuit_;
    Circumstances circumstances_;  ///< the network, what it stores, and what is done to both
    double now_s_ = 0;
    double tried_s_ = 0;     ///< length of the step tried from the state on; 0 where none is
    double end_s_ = 0;       ///< when that step ends
    double proposed_s_ = 0;  ///< the step to try after it
    std::vector<network::Tangent> tangents_before_;
    std::vector<Deed> deeds_;  ///< at the end of it
};

/// What switches is located to this, in s.
inline constexpr double kEventS = 1e-4;

}  // namespace halfsplit::simulation
