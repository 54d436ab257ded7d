#include "engine/practice/session/rhythm.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/swing.h"
#include "engine/practice/session/sign_places.h"
#include "engine/simulation/course.h"

namespace halfsplit::practice {

using diagnosis::Shows;
using diagnosis::Sign;
using diagnosis::SignSource;

namespace {

/// There and back: what only comes, or only goes, has no rhythm.
constexpr int kLeastChanges = 2;
/// Quicker than this, light is seen as steady (from memory: flicker fusion lies at 25 to 50 a second).
constexpr double kTooQuickPerMin = 25 * 60;
/// A relay clicks twice a round.
constexpr int kLeastClicks = 3;
/// What moves less far is not seen to move.
constexpr double kMovesPercent = 2;
/// People who count come to a whole five.
constexpr double kCountedTo = 5;
constexpr double kSlowestIndicatorPerMin = 60;
constexpr double kQuickestIndicatorPerMin = 120;

/// What one source was, look after look.
using Seen = std::vector<Sign>;

/// The looks at which it was up and had been down, or the other way round.
std::vector<int> changes_in(const Seen& seen) {
    std::vector<int> changes;
    const auto [least, most] = std::ranges::minmax(seen);
    const double middle = (static_cast<double>(least) + static_cast<double>(most)) / 2;
    const auto is_up = [&](std::size_t look) { return static_cast<double>(seen[look]) > middle; };
    for (std::size_t look = 1; look < seen.size(); ++look)
        if (is_up(look) != is_up(look - 1)) changes.push_back(static_cast<int>(look));
    return changes;
}

/// Over whole rounds, from a change to the last one of the same kind.
double rounds_per_min(const std::vector<int>& changes) {
    const std::size_t rounds = (changes.size() - 1) / 2;
    if (rounds == 0) return 0;
    const int looks = changes[2 * rounds] - changes[0];
    return 60 * static_cast<double>(rounds) / (looks * diagnosis::kLookEveryS);
}

Sign mean_of(const Seen& seen) {
    double sum = 0;
    for (const Sign sign : seen) sum += static_cast<double>(sign);
    return static_cast<Sign>(std::lround(sum / static_cast<double>(seen.size())));
}

/// Heat is felt slowly, and a fuse does not come back.
bool is_noticed_at_once(Shows shows) {
    return shows != Shows::heat && shows != Shows::fuse;
}

bool is_light(Shows shows) {
    return shows == Shows::filament || shows == Shows::string;
}

/// Whether something is timed to happen by then.
bool is_awaited(const simulation::CourseState& state, double by_s) {
    return std::ranges::any_of(state.units, [&](const simulation::UnitState& unit) {
        return unit.chart && std::ranges::any_of(unit.chart->delayed,
                                                 [&](const auto& delayed) { return delayed.due_s <= by_s; });
    });
}

class Watcher {
  public:
    Watcher(const simulation::Course& course, const std::vector<SignSource>& sources)
        : sources_(sources),
          places_(sources, course.network()),
          seen_(sources.size()),
          ways_(course.network().travels.size()) {}

    void look(const simulation::Course& course) {
        solution_.potential_v.resize(at(course.network().node_count));
        solution_.current_a.resize(course.network().branches.size());
        for (const int node : places_.nodes()) solution_.potential_v[at(node)] = course.potential_v(node);
        for (const int branch : places_.branches())
            solution_.current_a[at(branch)] = course.current_a(branch);
        for (std::size_t i = 0; i < sources_.size(); ++i)
            if (is_noticed_at_once(sources_[i].shows))
                seen_[i].push_back(diagnosis::sign_of(sources_[i], places_.branches_of(i), course.network(),
                                                      course.conditions(), solution_));
        for (int travel = 0; travel < static_cast<int>(ways_.size()); ++travel)
            ways_[at(travel)].push_back(course.way_percent(travel));
    }

    void tell(Glance& glance) const {
        for (std::size_t i = 0; i < sources_.size(); ++i) {
            if (seen_[i].empty()) continue;
            const std::vector<int> changes = changes_in(seen_[i]);
            if (static_cast<int>(changes.size()) < kLeastChanges) continue;
            const bool goes_out = std::ranges::find(seen_[i], Sign::none) != seen_[i].end();
            const Rhythm rhythm{true, goes_out, rounds_per_min(changes)};
            if (is_light(sources_[i].shows) && rhythm.per_min > kTooQuickPerMin)
                glance.signs[i] = mean_of(seen_[i]);
            else
                glance.rhythms[i] = rhythm;
        }
        for (std::size_t travel = 0; travel < ways_.size(); ++travel) {
            const auto [least, most] = std::ranges::minmax(ways_[travel]);
            glance.moves[travel] = most - least > kMovesPercent ? 1 : 0;
        }
    }

  private:
    const std::vector<SignSource>& sources_;
    SignPlaces places_;
    std::vector<Seen> seen_;
    std::vector<std::vector<double>> ways_;  ///< percent, one list per travel
    network::Solution solution_;
};

std::map<std::string, double> clicks_per_min(const model::Circuit& circuit,
                                             const std::vector<simulation::CourseEvent>& events,
                                             double watched_s) {
    std::map<std::string, double> clicks;
    for (const simulation::CourseEvent& event : events) {
        const model::Part* part = event.inside ? nullptr : circuit.find_part(event.subject);
        if (part != nullptr && does_click(*part)) ++clicks[part->id];
    }
    std::erase_if(clicks, [](const auto& each) { return each.second < kLeastClicks; });
    for (auto& [part, count] : clicks) count *= 60 / watched_s;
    return clicks;
}

std::string_view pace_of(double per_min) {
    if (per_min > kQuickestIndicatorPerMin + kCountedTo / 2) return " quickly";
    const bool is_slow = per_min > 0 && per_min < kSlowestIndicatorPerMin - kCountedTo / 2;
    return is_slow ? " slowly" : "";
}

}  // namespace

bool does_click(const model::Part& part) {
    return part.kind->element == "relay" || part.kind->element == "flasher";
}

Glance glance_at(const model::Circuit& circuit, const simulation::Settled& settled,
                 const std::vector<SignSource>& sources, std::vector<Sign> signs, double patience_s) {
    Glance now{std::move(signs),
               std::vector<Rhythm>(sources.size()),
               std::vector<char>(settled.network.travels.size(), 0),
               {}};
    if (!settled.living) return now;
    auto course = simulation::Course::begin(circuit, settled, {});
    if (!course || course->is_steady()) return now;
    Watcher watcher(*course, sources);
    const auto watch = [&](int from, double until_s) {
        int look = from;
        for (; look * diagnosis::kLookEveryS < until_s; ++look) {
            if (!course->run_until(look * diagnosis::kLookEveryS)) return -1;
            watcher.look(*course);
        }
        return look;
    };
    int looks = watch(0, kGlanceS);
    now.is_awaited = looks > 0 && is_awaited(course->state(), diagnosis::kWatchS);
    if (now.is_awaited) looks = watch(looks, patience_s);
    if (looks < 0) return now;
    watcher.tell(now);
    now.clicks_per_min = clicks_per_min(circuit, course->take_events(), course->now_s());
    return now;
}

std::string rhythm_word(Shows shows, const Rhythm& rhythm) {
    switch (shows) {
        case Shows::filament:
        case Shows::string:
            return rhythm.goes_out ? "flashes" + std::string(pace_of(rhythm.per_min)) : "flickers";
        case Shows::sound:
            return rhythm.goes_out ? "sounds on and off" : "sounds unsteadily";
        case Shows::rotor:
            return rhythm.goes_out ? "runs on and off" : "runs unsteadily";
        case Shows::plunger:
            return "pulls and lets go";
        case Shows::heat:
        case Shows::fuse:
        case Shows::lock:
        case Shows::travel:
            break;
    }
    return {};
}

std::string rhythm_text(Shows shows, const Rhythm& rhythm) {
    const double times = std::round(rhythm.per_min / kCountedTo) * kCountedTo;
    const std::string word = rhythm_word(shows, rhythm);
    return times < kCountedTo ? word : word + ", " + number_text(times) + " times a minute";
}

}  // namespace halfsplit::practice
