#include "engine/simulation/course.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/simulation/find_deeds.h"
#include "engine/simulation/step_length.h"

namespace halfsplit::simulation {

namespace {

constexpr double kFirstStepS = 1e-4;
constexpr double kShortestStepS = 1e-6;
/// Even where nothing seems to move, somebody looks now and then.
constexpr double kLongestStepS = 10;
/// Below this no step is tried any more: there is no solution.
constexpr double kHopelessStepS = 1e-8;
/// At one moment; a contact that opens its own feed without delay would go on for ever.
constexpr int kRoundsAtOnce = 200;
/// Where the first stage ends: something may be due there and no longer at the end.
constexpr double kMiddle = 0.58;

/// Everything that is to be set must exist and be possible.
tl::expected<void, Diagnostics> check_sets(const model::Circuit& circuit, network::Situation situation,
                                           const std::vector<TimedSet>& sets) {
    for (const TimedSet& set : sets) {
        const auto refused = [&](const std::string& message) {
            return tl::unexpected(Diagnostics{{set.where, message}});
        };
        if (!std::isfinite(set.at_s) || set.at_s < 0 || !std::isfinite(set.over_s) || set.over_s < 0)
            return refused("'" + set.what + "' is set at a time that is not 0 s or later");
        if (const auto applied = apply_set(circuit, set.what, set.to, situation); !applied)
            return refused(applied.error());
        if (set.over_s > 0 && circuit.find_quantity(set.what) == nullptr)
            return refused("'" + set.what + "' is no quantity: it cannot change gradually");
        if (const auto built = network::build_network(circuit, situation); !built)
            return refused(built.error().front().message);
    }
    return {};
}

/// What comes from a file may be of another circuit, or of this one before it was changed.
bool fits(const network::Network& network, const model::Circuit& circuit, const CourseState& state) {
    if (state.conditions.size() != network.conditions.size() ||
        state.waiting.size() != network.triggers.size() || state.beats.size() != network.oscillators.size())
        return false;
    const std::vector<Unit> units = units_of(circuit, network);
    if (units.size() != state.units.size()) return false;
    for (std::size_t i = 0; i < units.size(); ++i) {
        const UnitState& unit = state.units[i];
        if (!unit.chart) continue;
        const auto is_state = [&](int index) {
            return index > 0 && index < static_cast<int>(units[i].chart->states.size());
        };
        const auto is_driver = [&](int index) {
            return index >= 0 && index < static_cast<int>(units[i].drivers.size());
        };
        if (unit.inputs.size() != units[i].inputs.size() ||
            unit.chart->data.size() != units[i].chart->data.size() ||
            !std::ranges::all_of(unit.chart->configuration, is_state) ||
            !std::ranges::all_of(unit.tripped, is_driver) ||
            !std::ranges::all_of(unit.duties, is_driver, &Duty::driver))
            return false;
        for (std::size_t k = 0; k < unit.chart->data.size(); ++k)
            if (model::chart::type_of(unit.chart->data[k]) != units[i].chart->data[k].initial.type())
                return false;
    }
    for (std::size_t slot = 0; slot < circuit.parts.size(); ++slot) {
        const auto positions = static_cast<int>(circuit.parts[slot].positions.size());
        if (state.conditions[slot] < 0 || state.conditions[slot] >= std::max(1, positions)) return false;
    }
    const auto leads_on = [](const Ramp& ramp) { return ramp.end_s > ramp.start_s; };
    return std::isfinite(state.now_s) && state.step_s > 0 && std::ranges::all_of(state.ramps, leads_on);
}

bool is_of_the_clock(const Deed& deed) {
    return std::holds_alternative<TakeBeat>(deed) || std::holds_alternative<TakeDuty>(deed) ||
           std::holds_alternative<CarryOutSet>(deed) || std::holds_alternative<LookAtWorld>(deed);
}

}  // namespace

Course::Course(const model::Circuit& circuit, network::Network network, CourseState state)
    : circuit_(&circuit),
      circumstances_(circuit, std::move(network), std::move(state)),
      now_s_(circumstances_.state().now_s) {}

tl::expected<Course, Diagnostics> Course::begin(const model::Circuit& circuit, const Settled& settled,
                                                std::vector<TimedSet> to_come) {
    if (auto checked = check_sets(circuit, settled.situation, to_come); !checked)
        return tl::unexpected(checked.error());
    std::ranges::stable_sort(to_come, {}, &TimedSet::at_s);
    if (settled.living) {
        auto course = resume(circuit, *settled.living);
        if (!course) return course;
        // What was tried beyond now did not know of what is to come.
        if (auto stopped = course->stop_here(); !stopped) return tl::unexpected(stopped.error());
        course->count_from_now();
        course->circumstances_.state().to_come = std::move(to_come);
        if (auto quiet = course->settle_now(); !quiet) return tl::unexpected(quiet.error());
        return course;
    }
    CourseState state;
    state.step_s = kFirstStepS;
    state.situation = settled.situation;
    state.to_come = std::move(to_come);
    Course course(circuit, settled.network, std::move(state));
    course.circumstances_.begin_at(settled.point);
    if (const auto seen = course.circumstances_.integrator().look(); !seen)
        return tl::unexpected(course.circumstances_.no_solution(seen.error()));
    if (auto quiet = course.settle_now(); !quiet) return tl::unexpected(quiet.error());
    return course;
}

tl::expected<Course, Diagnostics> Course::resume(const model::Circuit& circuit, const CourseState& state) {
    auto network = network::build_network(circuit, state.situation);
    if (!network) return tl::unexpected(network.error());
    const Diagnostics misfit = one_problem("the saved course does not fit the circuit as it now is");
    if (!fits(*network, circuit, state)) return tl::unexpected(misfit);
    Course course(circuit, std::move(*network), state);
    if (!course.circumstances_.resume()) return tl::unexpected(misfit);
    if (auto run = course.run_until(std::max(state.now_s, state.seen_s)); !run)
        return tl::unexpected(run.error());
    return course;
}

tl::expected<void, Diagnostics> Course::run_until(double time_s) {
    if (time_s < now_s_) throw std::invalid_argument("a course goes forwards only");
    for (;;) {
        if (tried_s_ == 0)
            if (auto tried = try_next_step(); !tried) return tried;
        if (end_s_ > time_s) break;
        if (auto finished = finish_step(); !finished) return finished;
    }
    now_s_ = time_s;
    return {};
}

/// The step that was tried is made as far as now.
tl::expected<void, Diagnostics> Course::stop_here() {
    if (tried_s_ == 0) return {};
    const double made_s = now_s_ - circumstances_.state().now_s;
    tried_s_ = 0;
    deeds_.clear();
    if (made_s <= 0) return {};
    if (const auto error = try_step(made_s); !error) return tl::unexpected(error.error());
    end_s_ = now_s_;
    proposed_s_ = circumstances_.state().step_s;
    return finish_step();
}

tl::expected<void, Diagnostics> Course::set(const std::string& what, const std::string& to) {
    const std::vector<TimedSet> sets{{now_s_, what, to, 0, {}}};
    if (auto checked = check_sets(*circuit_, circumstances_.state().situation, sets); !checked)
        return checked;
    if (auto stopped = stop_here(); !stopped) return stopped;
    std::vector<TimedSet>& to_come = circumstances_.state().to_come;
    to_come.insert(to_come.begin(), sets.front());
    return settle_now();
}

tl::expected<void, Diagnostics> Course::change(const network::Situation& situation) {
    if (auto stopped = stop_here(); !stopped) return stopped;
    if (auto changed = circumstances_.change(situation); !changed) return changed;
    return settle_now();
}

void Course::count_from_now() {
    now_s_ -= circumstances_.state().now_s;
    end_s_ -= circumstances_.state().now_s;
    simulation::count_from_now(circumstances_.state());
}

tl::expected<Settled, Diagnostics> Course::settled_as_it_stands() const {
    network::Network now = network();
    for (std::size_t i = 0; i < now.branches.size(); ++i)
        now.branches[i].electrical.law = circumstances_.integrator().law(static_cast<int>(i));
    auto point = solve_in_conditions(now, conditions());
    if (!point) return tl::unexpected(one_problem(point.error().message));
    Settled settled{circumstances_.state().situation, std::move(now), std::move(*point), state()};
    settled.network.conditions = conditions();
    for (std::size_t i = 0; i < network().travels.size(); ++i)
        settled.network.travel_shares[i] = way_percent(static_cast<int>(i)) / 100;
    return settled;
}

tl::expected<void, Diagnostics> Course::try_next_step() {
    const CourseState& state = circumstances_.state();
    const auto tangents = circumstances_.integrator().tangents();
    tangents_before_.assign(tangents.begin(), tangents.end());
    const double appointment_s = next_appointment_s(state);
    const double wished_s = std::min(state.step_s, kLongestStepS);
    const bool is_cut = appointment_s - state.now_s <= wished_s;
    const auto error = try_within_tolerance(is_cut ? appointment_s - state.now_s : wished_s);
    if (!error) return tl::unexpected(error.error());
    const bool reaches_appointment = is_cut && end_s_ >= appointment_s - kHopelessStepS;
    if (reaches_appointment) end_s_ = appointment_s;
    const double longer_s = tried_s_ * growth(*error);
    proposed_s_ = reaches_appointment ? std::max(longer_s, state.step_s) : longer_s;
    return stop_at_first_deed();
}

tl::expected<double, Diagnostics> Course::try_within_tolerance(double step_s) {
    for (;;) {
        const auto error = try_step(step_s);
        if (!error && step_s <= kHopelessStepS) return tl::unexpected(error.error());
        if (error && (*error <= 1 || step_s <= kShortestStepS)) return *error;
        step_s *= error ? shrinkage(*error) : 0.25;
    }
}

tl::expected<double, Diagnostics> Course::try_step(double step_s) {
    auto error = circumstances_.integrator().try_step(step_s);
    if (!error) return tl::unexpected(circumstances_.no_solution(error.error()));
    tried_s_ = step_s;
    end_s_ = circumstances_.state().now_s + step_s;
    return *error;
}

bool Course::has_deeds_at(double share, std::vector<Deed>& deeds) const {
    deeds.clear();
    find_deeds(view(share), circumstances_.units(), deeds);
    return !deeds.empty();
}

/// A step ends at the first thing that happens in it, found by bisection on the parabolas and then stepped to
/// exactly. What the clock alone decides needs no search: no step goes beyond an appointment.
tl::expected<void, Diagnostics> Course::stop_at_first_deed() {
    double high = 1;
    std::vector<Deed> found;
    if (has_deeds_at(kMiddle, found)) {
        high = kMiddle;
        deeds_ = found;
    } else if (!has_deeds_at(1, deeds_)) {
        return {};
    }
    if (high == 1 && std::ranges::all_of(deeds_, is_of_the_clock)) return {};
    const double fine = kEventS / tried_s_;
    if (fine >= high) return {};
    if (high == 1 && !has_deeds_at(1 - fine / 2, found)) return {};
    double low = 0;
    while (high - low > fine / 2) {
        const double middle = low + (high - low) / 2;
        if (has_deeds_at(middle, found)) {
            high = middle;
            deeds_ = found;
        } else {
            low = middle;
        }
    }
    const auto error = try_step(high * tried_s_);
    if (!error) return tl::unexpected(error.error());
    return {};
}

tl::expected<void, Diagnostics> Course::finish_step() {
    circumstances_.integrator().accept();
    CourseState& state = circumstances_.state();
    state.now_s = end_s_;
    state.step_s = proposed_s_;
    tried_s_ = 0;
    if (deeds_.empty()) return {};
    const std::vector<Deed> deeds = std::exchange(deeds_, {});
    if (auto done = circumstances_.do_all(deeds); !done) return done;
    return settle_now();
}

/// What happens may make more happen at the same moment.
tl::expected<void, Diagnostics> Course::settle_now() {
    std::vector<Deed> deeds;
    for (int round = 0; round < kRoundsAtOnce; ++round) {
        deeds.clear();
        find_deeds(circumstances_.view(circumstances_.state().now_s, 0), circumstances_.units(), deeds);
        if (deeds.empty()) return {};
        if (auto done = circumstances_.do_all(deeds); !done) return done;
    }
    return tl::unexpected(circumstances_.chatters(deeds));
}

ViewInTime Course::view(double share) const {
    const double start_s = circumstances_.state().now_s;
    return circumstances_.view(share == 1 ? end_s_ : start_s + share * tried_s_, share);
}

double Course::share_now() const {
    return tried_s_ == 0 ? 0
                         : (now_s_ - circumstances_.state().now_s) / (end_s_ - circumstances_.state().now_s);
}

double Course::potential_v(int node) const {
    return circumstances_.integrator().potential_at(node, share_now());
}

double Course::current_a(int branch) const {
    return circumstances_.integrator().current_at(branch, share_now());
}

double Course::way_percent(int travel) const {
    const int number = circumstances_.numbers().way_of_travel[static_cast<std::size_t>(travel)];
    return 100 * circumstances_.view(now_s_, share_now()).value(number);
}

bool Course::is_steady() const {
    return next_appointment_s(circumstances_.state()) == kNever && circumstances_.integrator().is_steady();
}

CourseState Course::state() const {
    CourseState state = circumstances_.state();
    state.stored = circumstances_.integrator().state();
    if (tried_s_ != 0) state.stored.tangents = tangents_before_;
    state.seen_s = now_s_;
    return state;
}

std::vector<CourseEvent> Course::take_events() {
    return std::exchange(circumstances_.events(), {});
}

}  // namespace halfsplit::simulation
