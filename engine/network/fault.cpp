#include "engine/network/fault.h"

#include <algorithm>
#include <vector>

#include "engine/base/nearest.h"
#include "engine/base/number.h"
#include "engine/network/part_electrics.h"

namespace halfsplit::network {

using model::Circuit;
using model::FaultSpec;
using model::LinkEffect;

namespace {

using Resolved = tl::expected<Fault, std::string>;

struct Words {
    std::string_view kind;
    std::string_view where;
    std::optional<std::string_view> value;
};

std::optional<Words> split(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos || colon == 0) return std::nullopt;
    Words words{text.substr(0, colon), text.substr(colon + 1), std::nullopt};
    if (const std::size_t equals = words.where.find('='); equals != std::string_view::npos) {
        words.value = words.where.substr(equals + 1);
        words.where = words.where.substr(0, equals);
    }
    if (words.where.empty()) return std::nullopt;
    return words;
}

bool joins_two(const FaultSpec& spec) {
    const auto* link = std::get_if<LinkEffect>(&spec.effect);
    return link != nullptr &&
           (link->what == LinkEffect::What::between_wires || link->what == LinkEffect::What::swapped);
}

template <class Specs>
const FaultSpec* find_spec(const Specs& specs, std::string_view kind, std::string_view element = "") {
    const auto found = std::ranges::find_if(
        specs, [&](const FaultSpec& spec) { return spec.kind == kind && spec.element == element; });
    return found == specs.end() ? nullptr : &*found;
}

int part_index(const Circuit& circuit, std::string_view id) {
    const model::Part* part = circuit.find_part(id);
    return part == nullptr ? -1 : static_cast<int>(part - circuit.parts.data());
}

int wire_index(const Circuit& circuit, std::string_view id) {
    const model::Wire* wire = circuit.find_wire(id);
    return wire == nullptr ? -1 : static_cast<int>(wire - circuit.wires.data());
}

/// The pin of a plug contact: "1" of a part, "3" of a coupling (its `a` side).
int contact_pin(const model::Part& part, std::string_view id) {
    const std::string wanted =
        part.kind->pin_policy == model::PinPolicy::counted ? std::string(id) + "a" : std::string(id);
    const auto found = std::ranges::find(part.pins, wanted, &model::Pin::id);
    const bool has_contact = part.plugged || part.kind->pin_policy == model::PinPolicy::counted;
    return found == part.pins.end() || !has_contact ? -1 : static_cast<int>(found - part.pins.begin());
}

std::vector<std::string> fault_kinds_of(const model::Part& part) {
    std::vector<std::string> kinds;
    for (const FaultSpec& spec : part.kind->faults) kinds.emplace_back(spec.kind);
    for (const FaultSpec& spec : model::plug_faults()) kinds.emplace_back(spec.kind);
    std::ranges::sort(kinds);
    kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
    return kinds;
}

std::string no_such_kind(std::string_view kind, std::string_view where,
                         const std::vector<std::string>& known) {
    return "'" + std::string(where) + "' has no fault '" + std::string(kind) + "'" +
           did_you_mean(kind, known) + (known.empty() ? "" : "; expected " + listed(known));
}

std::string nothing_named(const Circuit& circuit, std::string_view where) {
    std::vector<std::string> known;
    for (const model::Part& part : circuit.parts) known.push_back(part.id);
    for (const model::Wire& wire : circuit.wires) known.push_back(wire.id);
    return "no part, plug contact or wire is called '" + std::string(where) + "'" +
           did_you_mean(where, known);
}

/// A fault written for a part as a whole: the part's own, its only contact's, or its plug's.
Resolved on_part(const Circuit& circuit, int index, const Words& words) {
    const model::Part& part = circuit.parts[static_cast<std::size_t>(index)];
    Fault fault;
    fault.part = index;
    if (const FaultSpec* spec = find_spec(model::plug_faults(), words.kind)) {
        if (!part.plugged && part.kind->pin_policy != model::PinPolicy::counted)
            return tl::unexpected("'" + part.id + "' has no plug");
        fault.spec = spec;
        fault.subject = FaultSubject::plug;
        return fault;
    }
    const FaultSpec* spec = find_spec(part.kind->faults, words.kind);
    if (spec ==
        nullptr) {  // an element's fault may be written without the element where only one can have it
        for (const FaultSpec& candidate : part.kind->faults) {
            if (candidate.kind != words.kind) continue;
            if (spec != nullptr)
                return tl::unexpected("'" + part.id + "' can have '" + std::string(words.kind) +
                                      "' in several places; expected " + part.id + "." +
                                      std::string(spec->element) + " or " + part.id + "." +
                                      std::string(candidate.element));
            spec = &candidate;
        }
    }
    if (spec == nullptr) return tl::unexpected(no_such_kind(words.kind, words.where, fault_kinds_of(part)));
    fault.spec = spec;
    fault.element = spec->element;
    if (std::holds_alternative<model::DeadInput>(spec->effect))
        return tl::unexpected("say which pin of '" + part.id + "' it does not see, as in " +
                              std::string(words.kind) + ":" + part.id + ".1");
    if (std::holds_alternative<model::ContactEffect>(spec->effect)) {
        const std::vector<std::string> contacts = contact_elements(circuit, part);
        if (contacts.size() != 1)
            return tl::unexpected("'" + part.id + "' has several contacts; say which, as in " +
                                  std::string(words.kind) + ":" + part.id + "." +
                                  (contacts.empty() ? "1-2" : contacts.front()));
        fault.element = contacts.front();
    }
    return fault;
}

/// A fault written `part.something`: a plug contact's or an element's.
Resolved inside_part(const Circuit& circuit, int index, std::string_view inner, const Words& words) {
    const model::Part& part = circuit.parts[static_cast<std::size_t>(index)];
    Fault fault;
    fault.part = index;
    fault.pin = contact_pin(part, inner);
    if (fault.pin >= 0) {
        fault.spec = find_spec(model::contact_faults(), words.kind);
        fault.subject = FaultSubject::contact;
        if (fault.spec != nullptr) return fault;
    }
    fault.pin = -1;
    fault.subject = FaultSubject::part;
    fault.element = inner;
    fault.spec = find_spec(part.kind->faults, words.kind, inner);
    if (fault.spec != nullptr) return fault;
    const std::vector<std::string> contacts = contact_elements(circuit, part);
    const FaultSpec* on_contact = find_spec(part.kind->faults, words.kind);
    if (on_contact != nullptr && std::holds_alternative<model::ContactEffect>(on_contact->effect) &&
        std::ranges::find(contacts, inner) != contacts.end()) {
        fault.spec = on_contact;
        return fault;
    }
    if (on_contact != nullptr && std::holds_alternative<model::DeadInput>(on_contact->effect) &&
        model::find_pin_index(part, inner)) {
        fault.spec = on_contact;
        fault.pin = *model::find_pin_index(part, inner);
        return fault;
    }
    std::vector<std::string> known = fault_kinds_of(part);
    if (contact_pin(part, inner) >= 0) {
        known.clear();
        for (const FaultSpec& spec : model::contact_faults()) known.emplace_back(spec.kind);
    }
    return tl::unexpected(no_such_kind(words.kind, words.where, known));
}

Resolved on_one(const Circuit& circuit, const Words& words) {
    if (const int wire = wire_index(circuit, words.where); wire >= 0) {
        const FaultSpec* spec = find_spec(model::wire_kind().faults, words.kind);
        if (spec == nullptr) {
            std::vector<std::string> known;
            for (const FaultSpec& each : model::wire_kind().faults) known.emplace_back(each.kind);
            return tl::unexpected(no_such_kind(words.kind, words.where, known));
        }
        Fault fault;
        fault.spec = spec;
        fault.subject = FaultSubject::wire;
        fault.wire = wire;
        return fault;
    }
    if (const int part = part_index(circuit, words.where); part >= 0) return on_part(circuit, part, words);
    if (const std::size_t dot = words.where.rfind('.'); dot != std::string_view::npos)
        if (const int part = part_index(circuit, words.where.substr(0, dot)); part >= 0)
            return inside_part(circuit, part, words.where.substr(dot + 1), words);
    return tl::unexpected(nothing_named(circuit, words.where));
}

Resolved on_two(const Circuit& circuit, Words words) {
    const std::string_view both = words.where;
    const std::size_t plus = both.find('+');
    words.where = both.substr(0, plus);
    Resolved first = on_one(circuit, words);
    if (!first) return first;
    if (!joins_two(*first->spec))
        return tl::unexpected("'" + std::string(words.kind) + "' sits in one place, not in '" +
                              std::string(both) + "'");
    words.where = both.substr(plus + 1);
    Resolved second = on_one(circuit, words);
    if (!second) return second;
    if (second->subject != first->subject)
        return tl::unexpected("'" + std::string(both) + "' joins two things of different sorts");
    first->other = first->subject == FaultSubject::wire ? second->wire : second->pin;
    const bool same_part = first->part == second->part;
    const bool same_thing =
        first->subject == FaultSubject::wire ? first->wire == first->other : first->pin == first->other;
    if (same_thing && same_part) return tl::unexpected("'" + std::string(both) + "' names one thing twice");
    if (first->subject == FaultSubject::contact && !same_part)
        return tl::unexpected("'" + std::string(both) + "': two contacts of one plug were expected");
    return first;
}

/// `open@vibration:0.5..1`
tl::expected<Chafing, std::string> parse_chafing(const Circuit& circuit, std::string_view text) {
    const std::string expected =
        "expected open@QUANTITY:LOW..HIGH or short@QUANTITY:LOW..HIGH, not '" + std::string(text) + "'";
    const std::size_t at = text.find('@');
    const std::size_t colon = text.find(':');
    const std::size_t dots = text.find("..");
    if (at == std::string_view::npos || colon == std::string_view::npos || dots == std::string_view::npos ||
        at > colon || colon > dots)
        return tl::unexpected(expected);
    const std::string_view mode = text.substr(0, at);
    const std::string quantity(text.substr(at + 1, colon - at - 1));
    const auto low = read_number(text.substr(colon + 1, dots - colon - 1));
    const auto high = read_number(text.substr(dots + 2));
    if ((mode != "open" && mode != "short") || !low || !high || *low > *high) return tl::unexpected(expected);
    if (circuit.find_quantity(quantity) == nullptr)
        return tl::unexpected("the circuit has no quantity '" + quantity + "'");
    return Chafing{mode == "short", quantity, *low, *high};
}

Resolved with_value(const Circuit& circuit, Fault fault, const Words& words) {
    const FaultSpec& spec = *fault.spec;
    fault.value = spec.value;
    const auto* link = std::get_if<LinkEffect>(&spec.effect);
    if (link != nullptr && link->what == LinkEffect::What::chafed) {
        if (!words.value)
            return tl::unexpected("'chafed' needs to know when: chafed:" + std::string(words.where) +
                                  "=open@QUANTITY:LOW..HIGH");
        auto chafing = parse_chafing(circuit, *words.value);
        if (!chafing) return tl::unexpected(chafing.error());
        fault.chafing = *chafing;
        return fault;
    }
    if (!words.value) return fault;
    if (spec.value_unit.empty() && spec.value_high <= spec.value_low)
        return tl::unexpected("'" + std::string(spec.kind) + "' takes no value");
    const auto number = read_number(*words.value);
    const std::string range = "a number from " + number_text(spec.value_low) + " to " +
                              number_text(spec.value_high) + " " + std::string(spec.value_unit);
    if (!number)
        return tl::unexpected("'" + std::string(*words.value) +
                              "' is no number (decimals take a point); expected " + range);
    if (*number < spec.value_low || *number > spec.value_high)
        return tl::unexpected("'" + std::string(*words.value) + "' is out of range; expected " + range);
    fault.value = *number;
    return fault;
}

std::string canonical_text(const Circuit& circuit, const Fault& fault, const Words& words) {
    const auto contact_text = [&](int pin) {
        const model::Part& part = circuit.parts[static_cast<std::size_t>(fault.part)];
        std::string id = part.pins[static_cast<std::size_t>(pin)].id;
        if (part.kind->pin_policy == model::PinPolicy::counted) id.pop_back();
        return part.id + "." + id;
    };
    std::string where;
    switch (fault.subject) {
        case FaultSubject::wire:
            where = circuit.wires[static_cast<std::size_t>(fault.wire)].id;
            if (fault.other >= 0) where += "+" + circuit.wires[static_cast<std::size_t>(fault.other)].id;
            break;
        case FaultSubject::contact:
            where = contact_text(fault.pin);
            if (fault.other >= 0) where += "+" + contact_text(fault.other);
            break;
        case FaultSubject::plug:
        case FaultSubject::part:
            where = circuit.parts[static_cast<std::size_t>(fault.part)].id;
            if (!fault.element.empty()) where += "." + fault.element;
            break;
    }
    std::string text = std::string(fault.spec->kind) + ":" + where;
    if (words.value) text += "=" + std::string(*words.value);
    return text;
}

}  // namespace

tl::expected<Fault, std::string> parse_fault(const Circuit& circuit, std::string_view text) {
    const auto words = split(text);
    if (!words)
        return tl::unexpected("expected KIND:WHERE or KIND:WHERE=VALUE, not '" + std::string(text) + "'");
    Resolved fault =
        words->where.find('+') == std::string_view::npos || circuit.find_wire(words->where) != nullptr
            ? on_one(circuit, *words)
            : on_two(circuit, *words);
    // A contact of the battery may be called "+": G1.+ is one thing, not two.
    if (!fault && words->where.ends_with(".+")) fault = on_one(circuit, *words);
    if (!fault) return fault;
    if (joins_two(*fault->spec) && fault->other < 0)
        return tl::unexpected("'" + std::string(words->kind) +
                              "' joins two things: " + std::string(words->kind) + ":A+B");
    fault = with_value(circuit, std::move(*fault), *words);
    if (!fault) return fault;
    fault->text = canonical_text(circuit, *fault, *words);
    return fault;
}

}  // namespace halfsplit::network
