#include "engine/practice/session/perceive.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/practice/session/sign_places.h"
#include "engine/tracing/step.h"

namespace halfsplit::practice {

using diagnosis::Shows;
using diagnosis::Sign;
using diagnosis::SignSource;
using model::Circuit;

namespace {

/// Nearer than this nobody sees a difference.
constexpr int kWayStepPercent = 5;

/// More clicks than this nobody can count: ten a second, from memory.
constexpr double kChattersPerMin = 600;

std::string place_of_relay(const Circuit& circuit, const model::Part& part) {
    const std::string title = tracing::place_title(circuit, static_cast<int>(&part - circuit.parts.data()));
    return title.empty() ? "somewhere" : title;
}

bool is_one_of(std::string_view element, std::initializer_list<std::string_view> elements) {
    return std::ranges::find(elements, element) != elements.end();
}

/// What an event is to somebody beside the vehicle; nullopt where nobody notices.
std::optional<Observed> noticed(const Circuit& circuit, const simulation::CourseEvent& event) {
    if (event.inside) return std::nullopt;
    const model::Part* part = circuit.find_part(event.subject);
    if (part == nullptr) return std::nullopt;
    if (does_click(*part)) return Observed{place_of_relay(circuit, *part), "clicks", ""};
    if (is_one_of(part->kind->element, {"motor", "mechanism", "lock-actuator", "solenoid"}))
        return Observed{part->id, event.what, ""};
    return std::nullopt;
}

/// A lock is locked where its actuator's way ends (see its kind).
Observed of_way(const Circuit& circuit, const std::string& part, const Way& way) {
    if (way.moves) return {part, "moves", "moves"};
    const std::string percent = std::to_string(way.percent) + " %";
    if (circuit.find_part(part)->kind->element != "lock-actuator" || (way.percent > 0 && way.percent < 100))
        return {part, percent, "stands at " + percent};
    const std::string state = way.percent == 0 ? "unlocked" : "locked";
    return {part, state, state};
}

/// How many they are tells no vehicle from another: what they would be is told of each.
Observed the_rest(int count) {
    const std::string things =
        count == 1 ? "1 thing that stands" : std::to_string(count) + " things that stand";
    return {kTheRest, "quiet", things + " still, dark, cold or silent; look all tells them"};
}

Observed clicking_at(const std::string& place, double per_min) {
    return per_min > kChattersPerMin ? Observed{place, "chatters", "a relay chatters"}
                                     : Observed{place, "clicks on", "a relay clicks again and again"};
}

}  // namespace

/// Where something stands is told in percent, see Way.
Onlooker::Onlooker(const Circuit& circuit) : circuit_(&circuit), sources_(diagnosis::sign_sources(circuit)) {
    std::erase_if(sources_, [](const SignSource& each) { return diagnosis::is_position(each.shows); });
}

Appearance Onlooker::look_at(const simulation::Settled& settled, double patience_s) const {
    const SignPlaces places(sources_, settled.network);
    const network::Solution solution{settled.point.potential_v, settled.point.current_a, 0, 0, 0};
    std::vector<Sign> signs;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        signs.push_back(diagnosis::sign_of(sources_[i], places.branches_of(i), settled.network,
                                           settled.point.conditions, solution));
    Glance glance = glance_at(*circuit_, settled, sources_, std::move(signs), patience_s);
    Appearance appearance;
    appearance.signs = std::move(glance.signs);
    appearance.rhythms = std::move(glance.rhythms);
    appearance.clicks_per_min = std::move(glance.clicks_per_min);
    appearance.is_awaited = glance.is_awaited;
    for (std::size_t i = 0; i < settled.network.travels.size(); ++i) {
        const double percent = settled.network.travel_shares[i] * 100;
        const int step = static_cast<int>(std::lround(percent / kWayStepPercent)) * kWayStepPercent;
        appearance.ways[circuit_->parts[at(settled.network.travels[i].part)].id] = {step,
                                                                                    glance.moves[i] != 0};
    }
    for (std::size_t i = 0; i < circuit_->parts.size(); ++i)
        if (circuit_->parts[i].kind->element == "relay")
            appearance.relays[circuit_->parts[i].id] = settled.point.conditions[i];
    return appearance;
}

std::vector<std::string> Onlooker::relays_changed(const Appearance& before, const Appearance& now) const {
    std::vector<std::string> changed;
    for (const auto& [relay, condition] : now.relays)
        if (before.relays.at(relay) != condition) changed.push_back(relay);
    return changed;
}

std::vector<std::string> Onlooker::relays_in(const std::vector<simulation::CourseEvent>& events) const {
    std::vector<std::string> relays;
    for (const simulation::CourseEvent& event : events) {
        const model::Part* part = event.inside ? nullptr : circuit_->find_part(event.subject);
        if (part != nullptr && does_click(*part)) relays.push_back(part->id);
    }
    return relays;
}

std::vector<Observed> Onlooker::clicks(const Appearance& before, const Appearance& now) const {
    std::map<std::string, int> times;
    for (const std::string& relay : relays_changed(before, now))
        ++times[place_of_relay(*circuit_, *circuit_->find_part(relay))];
    std::vector<Observed> heard;
    heard.reserve(times.size());
    for (const auto& [place, count] : times)
        heard.push_back(
            {place, "clicks", count == 1 ? "a relay clicks" : std::to_string(count) + " relays click"});
    const std::vector<Observed> heard_before = clicking(before);
    std::ranges::copy_if(clicking(now), std::back_inserter(heard), [&](const Observed& each) {
        return std::ranges::find(heard_before, each) == heard_before.end();
    });
    return heard;
}

std::vector<Observed> Onlooker::clicking(const Appearance& now) const {
    std::map<std::string, double> most_per_min;
    for (const auto& [relay, per_min] : now.clicks_per_min) {
        double& most = most_per_min[place_of_relay(*circuit_, *circuit_->find_part(relay))];
        most = std::max(most, per_min);
    }
    std::vector<Observed> heard;
    heard.reserve(most_per_min.size());
    for (const auto& [place, per_min] : most_per_min) heard.push_back(clicking_at(place, per_min));
    return heard;
}

Observed Onlooker::of_source(const Appearance& now, std::size_t source) const {
    const Rhythm& rhythm = now.rhythms[source];
    const Shows shows = sources_[source].shows;
    if (rhythm.comes_and_goes)
        return {sources_[source].name, rhythm_word(shows, rhythm), rhythm_text(shows, rhythm)};
    const std::string word(diagnosis::sign_word(sources_[source].shows, now.signs[source]));
    return {sources_[source].name, word, word};
}

std::vector<Observed> Onlooker::describe(const Appearance& now) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].shows != Shows::fuse) seen.push_back(of_source(now, i));
    for (const auto& [part, way] : now.ways) seen.push_back(of_way(*circuit_, part, way));
    std::ranges::move(clicking(now), std::back_inserter(seen));
    return seen;
}

std::vector<Observed> Onlooker::noteworthy(const std::optional<Appearance>& before,
                                           const Appearance& now) const {
    std::vector<Observed> seen;
    int quiet = 0;
    const auto take = [&](bool is_quiet, const Observed& is, const std::optional<Observed>& was) {
        const bool is_as_it_was = !was || was->what == is.what;
        if (is_quiet && is_as_it_was)
            ++quiet;
        else
            seen.push_back(is);
    };
    for (std::size_t i = 0; i < sources_.size(); ++i) {
        if (sources_[i].shows == Shows::fuse) continue;
        const bool is_quiet = now.signs[i] == Sign::none && !now.rhythms[i].comes_and_goes;
        take(is_quiet, of_source(now, i), before ? std::optional(of_source(*before, i)) : std::nullopt);
    }
    for (const auto& [part, way] : now.ways) {
        const bool is_at_an_end = way.percent == 0 || way.percent == 100;
        const auto was = before ? before->ways.find(part) : now.ways.end();
        const bool is_known = before && was != before->ways.end();
        take(is_at_an_end && !way.moves, of_way(*circuit_, part, way),
             is_known ? std::optional(of_way(*circuit_, part, was->second)) : std::nullopt);
    }
    std::ranges::move(clicking(now), std::back_inserter(seen));
    if (quiet > 0) seen.push_back(the_rest(quiet));
    return seen;
}

std::vector<Observed> Onlooker::describe(const Appearance& now, const std::string& name) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].name == name || sources_[i].name.starts_with(name + "."))
            seen.push_back(of_source(now, i));
    if (const auto way = now.ways.find(name); way != now.ways.end())
        seen.push_back(of_way(*circuit_, name, way->second));
    return seen;
}

std::vector<Observed> Onlooker::changes(const Appearance& before, const Appearance& now) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].shows != Shows::fuse && of_source(before, i).what != of_source(now, i).what)
            seen.push_back(of_source(now, i));
    for (const auto& [part, way] : now.ways) {
        const auto was = before.ways.find(part);
        const Observed is = of_way(*circuit_, part, way);
        if (was == before.ways.end() || of_way(*circuit_, part, was->second).what != is.what)
            seen.push_back(is);
    }
    return seen;
}

std::vector<Observed> Onlooker::happenings(const std::vector<simulation::CourseEvent>& events) const {
    struct Heard {
        Observed observed;
        int times = 0;
        double first_s = 0;
    };
    std::vector<Heard> heard;
    for (const simulation::CourseEvent& event : events) {
        auto observed = noticed(*circuit_, event);
        if (!observed) continue;
        const auto same = std::ranges::find_if(heard, [&](const Heard& each) {
            return each.observed.about == observed->about && each.observed.what == observed->what;
        });
        if (same == heard.end())
            heard.push_back({std::move(*observed), 1, event.at_s});
        else
            ++same->times;
    }
    std::vector<Observed> happened;
    for (Heard& each : heard) {
        const double tenths_s = std::round(each.first_s * 10) / 10;
        const bool is_relay = each.observed.what == "clicks";
        each.observed.shown = (is_relay ? "a relay clicks" : each.observed.what) +
                              (each.times > 1 ? " " + std::to_string(each.times) + " times, first" : "") +
                              " after " + number_text(tenths_s) + " s";
        happened.push_back(std::move(each.observed));
    }
    return happened;
}

}  // namespace halfsplit::practice
