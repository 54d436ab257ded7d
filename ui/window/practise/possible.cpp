#include "ui/window/practise/possible.h"

#include <algorithm>
#include <array>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/practice/session/rhythm.h"
#include "ui/view/session_text.h"

namespace halfsplit::window {

using model::Part;
using practice::Action;
using practice::Verb;

namespace {

constexpr std::array<std::string_view, 4> kInSockets{"fuse", "circuit-breaker", "fusible-link", "relay"};

bool is_coupling(const Part& part) {
    return part.kind->pin_policy == model::PinPolicy::counted;
}

/// "X3.1" of the coupling's points X3.1a and X3.1b; "" where there is no plug contact.
std::string contact_of_point(const Part& part, const std::string& point) {
    if (model::is_one_point(part) || !(part.plugged || is_coupling(part))) return "";
    return is_coupling(part) ? point.substr(0, point.size() - 1) : point;
}

bool is_seen(const Part& part, const std::vector<diagnosis::SignSource>& sources) {
    return part.kind->element == "mechanism" ||
           std::ranges::any_of(sources, [&](const diagnosis::SignSource& source) {
               return source.name == part.id || source.name.starts_with(part.id + ".");
           });
}

void add_going_apart(const Part& part, const Seen& seen, std::vector<Possible>& all) {
    const bool is_away = seen.away.contains(part.id);
    if (std::ranges::find(kInSockets, part.kind->element) != kInSockets.end() && part.plugged)
        all.push_back(is_away ? Possible{"Push it in", {Verb::push, {part.id}}}
                              : Possible{"Pull it out", {Verb::pull, {part.id}}});
    else if (part.plugged || is_coupling(part)) {
        // Also where nobody took it off: it may have come off by itself.
        if (!is_away) all.push_back({"Unplug it", {Verb::unplug, {part.id}}});
        all.push_back({"Press its plug on", {Verb::plug, {part.id}}});
    }
}

void add_swaps(const model::Circuit& circuit, const Part& part, std::vector<Possible>& all) {
    if (part.kind->element != "relay") return;
    for (const Part& other : circuit.parts)
        if (other.id != part.id && other.kind == part.kind && other.words == part.words &&
            other.pins.size() == part.pins.size())
            all.push_back({"Swap it with " + other.id, {Verb::swap, {part.id, other.id}}});
}

void add_part(const model::Circuit& circuit, const std::vector<diagnosis::SignSource>& sources,
              const Seen& seen, const Part& part, std::vector<Possible>& all) {
    if (practice::does_click(part)) all.push_back({"Feel whether it clicked", {Verb::look, {part.id}}});
    if (is_seen(part, sources)) all.push_back({"Look at it", {Verb::look, {part.id}}});
    all.push_back({"Inspect " + part.id + " closely", {Verb::inspect, {part.id}}});
    if (model::is_one_point(part)) {
        all.push_back({"Mend " + part.id, {Verb::mend, {part.id}}});
        return;
    }
    add_going_apart(part, seen, all);
    add_swaps(circuit, part, all);
    all.push_back({"Replace " + part.id + " by a new one", {Verb::replace, {part.id}}});
}

double seconds_of(const Action& action) {
    const auto number = [&](std::size_t index) {
        const auto read = action.arguments.size() > index ? read_number(action.arguments[index]) : 0.0;
        return read ? *read : 0.0;
    };
    switch (action.verb) {
        case Verb::wait:
            return number(0);
        case Verb::record:
            return number(1);
        case Verb::set:
        case Verb::press:
            return number(2);
        default:
            return 0;
    }
}

}  // namespace

const Part* part_of(const model::Circuit& circuit, const Pick& pick) {
    if (pick.kind == Pick::Kind::wire) return nullptr;
    if (const Part* part = circuit.find_part(pick.name)) return part;
    const auto pin = circuit.find_pin(pick.name);
    return pin ? &circuit.parts[at(pin->part)] : nullptr;
}

std::vector<Possible> possible_with(const model::Circuit& circuit,
                                    const std::vector<diagnosis::SignSource>& sources, const Seen& seen,
                                    const Pick& pick) {
    std::vector<Possible> all;
    if (pick.kind == Pick::Kind::wire) {
        all.push_back({"Inspect it closely", {Verb::inspect, {pick.name}}});
        all.push_back({"Mend it with new wire", {Verb::mend, {pick.name}}});
        return all;
    }
    const Part* part = part_of(circuit, pick);
    if (part == nullptr) return all;
    if (pick.kind == Pick::Kind::point)
        if (const std::string contact = contact_of_point(*part, pick.name); !contact.empty()) {
            all.push_back({"Inspect contact " + contact, {Verb::inspect, {contact}}});
            all.push_back({"Mend contact " + contact, {Verb::mend, {contact}}});
        }
    add_part(circuit, sources, seen, *part, all);
    return all;
}

double minutes_for(const practice::Session& session, const Action& action) {
    practice::OpenPlaces open = session.open_places();
    return practice::toll_of(session.circuit(), action, seconds_of(action), open);
}

std::string with_minutes(const std::string& label, double minutes) {
    return minutes < 0.05 ? label : label + " (" + view::clock_text(minutes) + ")";
}

}  // namespace halfsplit::window
