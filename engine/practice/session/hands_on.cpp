#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/instruments/instrument.h"
#include "engine/instruments/jumper_lead.h"
#include "engine/instruments/recorder.h"
#include "engine/practice/session/reading_in_time.h"
#include "engine/practice/session/serviced_vehicle.h"
#include "engine/practice/session/sight.h"
#include "engine/practice/session/thing.h"
#include "engine/simulation/course.h"

/// What hands and instruments do to a vehicle.
namespace halfsplit::practice {

using model::Circuit;
using network::FaultSubject;
using network::Situation;

namespace {

/// After a new fuse is in.
constexpr double kLookingOnS = 0.5;

constexpr std::array<std::string_view, 4> kFuseElements{"fuse", "circuit-breaker", "fusible-link", "relay"};

/// Who has a part or a plug in hand sees its contacts too.
bool shows_on(const network::Fault& fault, const Thing& thing) {
    const bool is_contact_of_it =
        (fault.subject == FaultSubject::contact || fault.subject == FaultSubject::plug) &&
        fault.part == thing.part && thing.subject != FaultSubject::contact;
    return sits_on(fault, thing) || is_contact_of_it;
}

}  // namespace

Done ServicedVehicle::measure(const Action& action) {
    const std::string& instrument = action.arguments[0];
    instruments::Leads leads{action.arguments[1]};
    if (action.arguments.size() > 2) leads.against = action.arguments[2];
    auto reading = reading_in_time(*circuit_, settled_, instrument, leads);
    if (!reading) return tl::unexpected(reading.error().front().message);
    Effect effect;
    const bool is_against_body = reading->against.empty() || reading->against == "body";
    const std::string about =
        instrument + " " + leads.at + (is_against_body ? "" : " to " + reading->against);
    Observed observed{about, reading->unit, reading->shown};
    const bool is_number = reading->valid && !reading->unit.empty() && std::isfinite(reading->value);
    if (is_number) {
        observed.value = reading->value;
        observed.doubt = (reading->high - reading->low) / 2;
    } else {
        observed.what = reading->shown;
    }
    effect.observed.push_back(std::move(observed));
    return effect;
}

Done ServicedVehicle::record(const Action& action) {
    const auto seconds = read_number(action.arguments[1]);
    if (!seconds || *seconds < kRecorderSampleS || *seconds > 60)
        return tl::unexpected("'" + action.arguments[1] +
                              "' is no time; seconds from 0.001 to 60 are expected");
    const auto channels = instruments::channels_for(*circuit_, action.arguments[0]);
    if (!channels) return tl::unexpected(channels.error());
    if (channels->size() > instruments::kMostChannels)
        return tl::unexpected(std::string("the recorder has four channels"));
    Situation probed = situation();
    instruments::connect(*channels, probed);
    auto course = simulation::Course::begin(*circuit_, settled_, {});
    if (!course) return tl::unexpected(course.error().front().message);
    if (const auto changed = course->change(probed); !changed)
        return tl::unexpected(changed.error().front().message);
    const auto recording = instruments::record(*course, *channels, sampled_every_s(*seconds), *seconds);
    if (!recording) return tl::unexpected(recording.error().front().message);
    Effect effect;
    const std::vector<simulation::CourseEvent> events = course->take_events();
    effect.observed = onlooker_.happenings(events);
    remember_clicks(onlooker_.relays_in(events));
    const Situation bare = situation();
    if (const auto changed = course->change(bare); !changed)
        return tl::unexpected(changed.error().front().message);
    auto settled = course->settled_as_it_stands();
    if (!settled) return tl::unexpected(settled.error().front().message);
    stand(std::move(*settled));
    effect.seconds = *seconds;
    for (std::size_t i = 0; i < channels->size(); ++i)
        std::ranges::move(extremes((*channels)[i], recording->least[i], recording->most[i]),
                          std::back_inserter(effect.observed));
    return effect;
}

Done ServicedVehicle::take_apart(const Action& action) {
    const std::string& name = action.arguments.front();
    Situation changed = situation();
    const bool is_socket = action.verb == Verb::pull || action.verb == Verb::push;
    if (is_socket) {
        const auto part = find_part_of(*circuit_, name, {kFuseElements.begin(), kFuseElements.end()});
        if (!part) return tl::unexpected(part.error());
    } else if (const auto thing = find_thing(*circuit_, name); !thing) {
        return tl::unexpected(thing.error());
    }
    auto& out = is_socket ? changed.pulled : changed.unplugged;
    if (action.verb == Verb::pull || action.verb == Verb::unplug) {
        if (!out.insert(name).second)
            return tl::unexpected(name + " is " + (is_socket ? "out" : "off") + " already");
        return change_to(changed);
    }
    const std::size_t faults_before = changed.faults.size();
    const bool was_out = out.erase(name) > 0;
    if (const auto thing = find_thing(*circuit_, name); thing && !is_socket)
        std::erase_if(changed.faults, [&](const network::Fault& fault) {
            return fault.subject == FaultSubject::plug && fault.part == thing->part;
        });
    if (!was_out && changed.faults.size() == faults_before)
        return tl::unexpected(name + " is " + (is_socket ? "in its socket" : "plugged") + " already");
    return change_to(changed);
}

Done ServicedVehicle::bridge(const Action& action) {
    Situation changed = situation();
    if (action.verb == Verb::unbridge) {
        if (changed.attachments.empty()) return tl::unexpected(std::string("no jumper lead is on"));
        changed.attachments.clear();
        return change_to(changed);
    }
    if (!changed.attachments.empty())
        return tl::unexpected("the jumper lead is on " + changed.attachments.front().from + " and " +
                              changed.attachments.front().to + "; unbridge first");
    if (action.arguments[0] == action.arguments[1])
        return tl::unexpected("both clips are on '" + action.arguments[0] + "'; two points are expected");
    return join(instruments::jumper_between(action.arguments[0], action.arguments[1]));
}

Done ServicedVehicle::join(const network::Attachment& lead) {
    const auto first_a = instruments::first_current_a({*circuit_, settled_}, lead);
    if (!first_a) return tl::unexpected(first_a.error().front().message);
    if (std::abs(*first_a) > instruments::kJumperFuseA) return Effect{{}, {kJumperBlew}, 0};
    Situation joined = situation();
    joined.attachments.push_back(lead);
    return change_to(joined);
}

Done ServicedVehicle::swap(const Action& action) {
    Thing things[2];
    for (std::size_t i = 0; i < 2; ++i) {
        const auto found = find_part_of(*circuit_, action.arguments[i], {"relay"});
        if (!found) return tl::unexpected(found.error());
        things[i] = *found;
    }
    const model::Part& one = circuit_->parts[at(things[0].part)];
    const model::Part& other = circuit_->parts[at(things[1].part)];
    if (one.id == other.id) return tl::unexpected(std::string("two relays are expected"));
    if (one.words != other.words || one.pins.size() != other.pins.size())
        return tl::unexpected(one.id + " and " + other.id +
                              " are not of one kind: they do not fit each other's socket");
    Situation changed = situation();
    for (network::Fault& fault : changed.faults) {
        if (fault.subject != FaultSubject::part) continue;
        const bool is_one = fault.part == things[0].part;
        if (!is_one && fault.part != things[1].part) continue;
        std::string text = fault.text;
        const std::string& from = is_one ? one.id : other.id;
        text.replace(text.find(':') + 1, from.size(), is_one ? other.id : one.id);
        if (const auto moved = network::parse_fault(*circuit_, text)) fault = *moved;
    }
    return change_to(changed);
}

Done ServicedVehicle::fit(const Action& action) {
    const auto thing = find_part_of(*circuit_, action.arguments[0], {"fuse", "fusible-link"});
    if (!thing) return tl::unexpected(thing.error());
    const auto rating_a = read_number(action.arguments[1]);
    if (!rating_a || *rating_a < 0.5 || *rating_a > 500)
        return tl::unexpected("'" + action.arguments[1] +
                              "' is no rating; amperes from 0.5 to 500 are expected");
    Situation changed = situation();
    std::erase_if(changed.faults, [&](const network::Fault& fault) { return sits_on(fault, *thing); });
    changed.pulled.erase(thing->name);
    const model::Part& fuse = circuit_->parts[at(thing->part)];
    if (*rating_a != rated_a(fuse)) {
        const auto wrong =
            network::parse_fault(*circuit_, "wrong-rating:" + fuse.id + "=" + number_text(*rating_a));
        if (!wrong) return tl::unexpected("no such fuse fits " + fuse.id);
        changed.faults.push_back(*wrong);
    }
    return make_new(thing->part, changed);
}

Done ServicedVehicle::inspect(const Action& action) {
    const auto thing = find_thing(*circuit_, action.arguments.front());
    if (!thing) return tl::unexpected(thing.error());
    Effect effect;
    for (const network::Fault& fault : faults())
        if (shows_on(fault, *thing))
            effect.observed.push_back({thing->name, std::string(fault.spec->kind),
                                       "not in order (" + fault.text + "): " + sight_of(*circuit_, fault)});
    const bool is_part = thing->subject == FaultSubject::part;
    if (is_part && effect.observed.empty() && condition_of(thing->part) == "blown")
        effect.observed.push_back({thing->name, "blown", "not in order: it has blown"});
    if (effect.observed.empty())
        effect.observed.push_back({thing->name, "in order", "nothing wrong is found with it"});
    return effect;
}

Done ServicedVehicle::repair(const Action& action) {
    const auto thing = find_thing(*circuit_, action.arguments.front());
    if (!thing) return tl::unexpected(thing.error());
    const bool is_part = thing->subject == FaultSubject::part;
    const bool is_joint = is_part && model::is_one_point(circuit_->parts[at(thing->part)]);
    if (action.verb == Verb::replace && (!is_part || is_joint))
        return tl::unexpected(thing->name + " is mended, not replaced");
    if (action.verb == Verb::mend && is_part && !is_joint)
        return tl::unexpected(thing->name + " is a part: replace it, or mend one of its contacts, such as " +
                              circuit_->point_name({thing->part, 0}));
    Situation changed = situation();
    std::erase_if(changed.faults, [&](const network::Fault& fault) { return sits_on(fault, *thing); });
    if (!is_part || is_joint) return change_to(changed);
    changed.pulled.erase(thing->name);
    changed.unplugged.erase(thing->name);
    return make_new(thing->part, changed);
}

/// A part that is new is in the condition it leaves its maker in, whatever the old one had come to.
Done ServicedVehicle::make_new(int part, const Situation& situation) {
    const simulation::Settled before = settled_;
    const bool had_blown = condition_of(part) == "blown";
    auto changed = change_to(situation);
    if (!changed || !had_blown) return changed;
    auto made = run(kLookingOnS, {{0, circuit_->parts[at(part)].id, "intact", 0, {}}});
    if (!made) stand(before);
    return made;
}

std::string_view ServicedVehicle::condition_of(int part) const {
    const model::Part& it = circuit_->parts[at(part)];
    const int condition = settled_.point.conditions[at(part)];
    return it.positions.empty() ? std::string_view{} : std::string_view(it.positions[at(condition)].id);
}

}  // namespace halfsplit::practice
