#include "engine/diagnosis/dictionary/pulses.h"

#include <algorithm>
#include <cmath>

#include "engine/diagnosis/swing.h"
#include "engine/simulation/course.h"

namespace halfsplit::diagnosis {

namespace {

/// A clamp's last digits.
constexpr double kHardlyShownA = 0.02;

/// So many rounds are looked at; a fault may make them a little longer.
constexpr double kRounds = 2.5;
/// Lamps have to warm up.
constexpr double kLeastWatchS = 0.5;
/// Long enough to see a relay or a control unit that takes its own supply away and begins anew, again and
/// again.
constexpr double kWatchForMoreS = 1;

/// What a finding was, look after look; empty where it was not looked at.
using Seen = std::vector<double>;

class Watcher {
  public:
    Watcher(const model::Circuit& circuit, const simulation::Settled& settled, const FindingPlaces& places,
            double watch_s)
        : circuit_(circuit), settled_(settled), places_(places), watch_s_(watch_s), seen_(places.findings) {}

    /// Of the findings for which this holds. False where the course comes to an error.
    template <class Wanted>
    bool watch(const Wanted& is_wanted) {
        auto course = simulation::Course::begin(circuit_, settled_, {});
        if (!course) return false;
        const double begin_s = course->now_s();
        for (int look = 0; look * kLookEveryS < watch_s_ && !(look > 0 && course->is_steady()); ++look) {
            if (!course->run_until(begin_s + look * kLookEveryS)) return false;
            look_at(*course, is_wanted);
        }
        return true;
    }

    const std::vector<Seen>& seen() const { return seen_; }

  private:
    template <class Wanted>
    void look_at(const simulation::Course& course, const Wanted& is_wanted) {
        for (const FindingPlaces::Voltage& each : places_.voltages)
            if (is_wanted(each.finding))
                seen_[at(each.finding)].push_back(course.potential_v(each.at) -
                                                  course.potential_v(each.against));
        for (const FindingPlaces::Current& each : places_.currents)
            if (is_wanted(each.finding)) seen_[at(each.finding)].push_back(course.current_a(each.branch));
        const bool looks_at_signs = std::ranges::any_of(
            places_.signs, [&](const FindingPlaces::Seen& each) { return is_wanted(each.finding); });
        if (!looks_at_signs) return;
        take_solution(course);
        for (const FindingPlaces::Seen& each : places_.signs)
            if (is_wanted(each.finding))
                seen_[at(each.finding)].push_back(static_cast<double>(sign_now(course, each)));
    }

    /// The network of a course has where things stood when it began.
    Sign sign_now(const simulation::Course& course, const FindingPlaces::Seen& seen) const {
        const auto& travels = course.network().travels;
        if (is_position(seen.source.shows))
            for (int travel = 0; travel < static_cast<int>(travels.size()); ++travel)
                if (travels[at(travel)].part == seen.source.part)
                    return sign_at(course.way_percent(travel) / 100);
        return sign_of(seen.source, seen.branches, course.network(), course.conditions(), solution_);
    }

    void take_solution(const simulation::Course& course) {
        solution_.potential_v.resize(at(course.network().node_count));
        solution_.current_a.resize(course.network().branches.size());
        for (int node = 0; node < course.network().node_count; ++node)
            solution_.potential_v[at(node)] = course.potential_v(node);
        for (int branch = 0; branch < static_cast<int>(solution_.current_a.size()); ++branch)
            solution_.current_a[at(branch)] = course.current_a(branch);
    }

    const model::Circuit& circuit_;
    const simulation::Settled& settled_;
    const FindingPlaces& places_;
    double watch_s_;
    std::vector<Seen> seen_;
    network::Solution solution_;
};

Swing swing_in(Finding::Kind kind, const Seen& seen) {
    return kind == Finding::Kind::current ? swing_of(seen, kHardlyShownA) : swing_of(seen);
}

Pulse pulse_of(Finding::Kind kind, const Swing& swing, double watched_s) {
    if (!swing.pulses) return Pulse::none;
    const bool is_fast = swing.crossings > 2 * kFastHz * watched_s;
    return is_fast && kind != Finding::Kind::sign ? Pulse::fast : Pulse::slow;
}

double watch_for(const Swing& swing) {
    const double round_s = 2 * kWatchS / swing.crossings;
    return std::clamp(kRounds * round_s, kLeastWatchS, kWatchS);
}

/// Until whatever beats by itself here has gone through some rounds.
double rounds_s(const simulation::Settled& settled) {
    double longest_s = 0;
    for (std::size_t i = 0; i < settled.living->beats.size(); ++i) {
        const model::Oscillator& oscillator = settled.network.oscillators[i].oscillator;
        const bool beats = settled.living->beats[i].next_s != simulation::kNever;
        if (beats && oscillator.quantity.empty() && oscillator.rate_hz > 0)
            longest_s = std::max(longest_s, kRounds / oscillator.rate_hz);
    }
    return std::min(longest_s, kWatchS);
}

double value_of(Pulse pulse, const Seen& seen) {
    if (pulse == Pulse::slow) return while_up(seen);
    double sum = 0;
    for (const double value : seen) sum += value;
    return sum / static_cast<double>(seen.size());
}

}  // namespace

Pulses pulses_of(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<Finding>& findings) {
    Pulses pulses{std::vector<Pulse>(findings.size(), Pulse::none), 0};
    if (!settled.living) return pulses;
    const FindingPlaces places = places_of(circuit, findings, settled.network);
    Watcher watcher(circuit, settled, places, kWatchS);
    if (!watcher.watch([](int) { return true; })) return pulses;
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const Seen& seen = watcher.seen()[i];
        if (seen.empty()) continue;
        const Swing swing = swing_in(findings[i].kind, seen);
        pulses.of[i] = pulse_of(findings[i].kind, swing, kWatchS);
        if (pulses.of[i] != Pulse::none) pulses.watch_s = std::max(pulses.watch_s, watch_for(swing));
    }
    return pulses;
}

bool read_pulses(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<Finding>& findings, const FindingPlaces& places, const Pulses& pulses,
                 std::span<float> row) {
    if (!settled.living) return true;
    const double watch_s = std::max({pulses.watch_s, kWatchForMoreS, rounds_s(settled)});
    Watcher watcher(circuit, settled, places, watch_s);
    if (!watcher.watch([](int) { return true; })) return false;
    for (std::size_t i = 0; i < row.size(); ++i) {
        const Seen& seen = watcher.seen()[i];
        if (seen.empty()) continue;
        const Pulse pulse = pulses.of[i] != Pulse::none
                                ? pulses.of[i]
                                : pulse_of(findings[i].kind, swing_in(findings[i].kind, seen), watch_s);
        if (pulse != Pulse::none) row[i] = static_cast<float>(value_of(pulse, seen));
    }
    return true;
}

}  // namespace halfsplit::diagnosis
