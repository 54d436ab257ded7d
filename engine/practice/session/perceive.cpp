#include "engine/practice/session/perceive.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <string_view>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/diagnosis/sheet/sign_words.h"
#include "engine/tracing/step.h"

namespace halfsplit::practice {

using diagnosis::Shows;
using diagnosis::Sign;
using diagnosis::SignSource;
using model::Circuit;

namespace {

/// Nearer than this nobody sees a difference.
constexpr int kWayStepPercent = 5;

std::map<std::string, std::vector<int>, std::less<>> branches_by_name(const network::Network& network) {
    std::map<std::string, std::vector<int>, std::less<>> branches;
    for (std::size_t i = 0; i < network.branches.size(); ++i)
        branches[network.branches[i].name].push_back(static_cast<int>(i));
    return branches;
}

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
    if (is_one_of(part->kind->element, {"relay", "flasher"}))
        return Observed{place_of_relay(circuit, *part), "clicks", ""};
    if (is_one_of(part->kind->element, {"motor", "mechanism", "lock-actuator", "solenoid"}))
        return Observed{part->id, event.what, ""};
    return std::nullopt;
}

}  // namespace

Onlooker::Onlooker(const Circuit& circuit) : circuit_(&circuit), sources_(diagnosis::sign_sources(circuit)) {}

Appearance Onlooker::look_at(const simulation::Settled& settled) const {
    const auto branches = branches_by_name(settled.network);
    const network::Solution solution{settled.point.potential_v, settled.point.current_a, 0, 0, 0};
    Appearance appearance;
    for (const SignSource& source : sources_) {
        const auto found = branches.find(source.branch);
        const std::span<const int> its =
            found == branches.end() ? std::span<const int>{} : std::span<const int>(found->second);
        appearance.signs.push_back(
            diagnosis::sign_of(source, its, settled.network, settled.point.conditions, solution));
    }
    for (std::size_t i = 0; i < settled.network.travels.size(); ++i) {
        const double percent = settled.network.travel_shares[i] * 100;
        const int step = static_cast<int>(std::lround(percent / kWayStepPercent)) * kWayStepPercent;
        appearance.ways[circuit_->parts[at(settled.network.travels[i].part)].id] = step;
    }
    for (std::size_t i = 0; i < circuit_->parts.size(); ++i)
        if (circuit_->parts[i].kind->element == "relay")
            appearance.relays[circuit_->parts[i].id] = settled.point.conditions[i];
    return appearance;
}

std::vector<Observed> Onlooker::clicks(const Appearance& before, const Appearance& now) const {
    std::map<std::string, int> times;
    for (const auto& [relay, condition] : now.relays)
        if (before.relays.at(relay) != condition)
            ++times[place_of_relay(*circuit_, *circuit_->find_part(relay))];
    std::vector<Observed> heard;
    heard.reserve(times.size());
    for (const auto& [place, count] : times)
        heard.push_back(
            {place, "clicks", count == 1 ? "a relay clicks" : std::to_string(count) + " relays click"});
    return heard;
}

Observed Onlooker::of_source(const Appearance& now, std::size_t source) const {
    const std::string word(diagnosis::sign_word(sources_[source].shows, now.signs[source]));
    return {sources_[source].name, word, word};
}

std::vector<Observed> Onlooker::describe(const Appearance& now) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].shows != Shows::fuse) seen.push_back(of_source(now, i));
    for (const auto& [part, percent] : now.ways)
        seen.push_back({part, std::to_string(percent) + " %", "stands at " + std::to_string(percent) + " %"});
    return seen;
}

std::vector<Observed> Onlooker::describe(const Appearance& now, const std::string& name) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].name == name || sources_[i].name.starts_with(name + "."))
            seen.push_back(of_source(now, i));
    if (const auto way = now.ways.find(name); way != now.ways.end()) {
        const std::string percent = std::to_string(way->second) + " %";
        seen.push_back({name, percent, "stands at " + percent});
    }
    return seen;
}

std::vector<Observed> Onlooker::changes(const Appearance& before, const Appearance& now) const {
    std::vector<Observed> seen;
    for (std::size_t i = 0; i < sources_.size(); ++i)
        if (sources_[i].shows != Shows::fuse && before.signs[i] != now.signs[i])
            seen.push_back(of_source(now, i));
    for (const auto& [part, percent] : now.ways) {
        const auto was = before.ways.find(part);
        if (was != before.ways.end() && was->second == percent) continue;
        const std::string text = std::to_string(percent) + " %";
        seen.push_back({part, text, "stands at " + text});
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
