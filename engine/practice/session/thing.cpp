#include "engine/practice/session/thing.h"

#include <algorithm>

#include "engine/base/index.h"
#include "engine/base/nearest.h"
#include "engine/diagnosis/next_test/effort.h"
#include "engine/diagnosis/place_of.h"

namespace halfsplit::practice {

using model::Circuit;
using network::FaultSubject;

namespace {

std::vector<std::string> all_names(const Circuit& circuit) {
    std::vector<std::string> names;
    for (const model::Part& part : circuit.parts) names.push_back(part.id);
    for (const model::Wire& wire : circuit.wires) names.push_back(wire.id);
    return names;
}

}  // namespace

tl::expected<Thing, std::string> find_thing(const Circuit& circuit, std::string_view name) {
    const std::string text(name);
    if (const model::Wire* wire = circuit.find_wire(name))
        return Thing{FaultSubject::wire, -1, -1, static_cast<int>(wire - circuit.wires.data()), text};
    if (const model::Part* part = circuit.find_part(name))
        return Thing{FaultSubject::part, static_cast<int>(part - circuit.parts.data()), -1, -1, text};
    for (const char* kind : {"open:", "unplugged:"}) {
        const auto fault = network::parse_fault(circuit, kind + text);
        if (fault && (fault->subject == FaultSubject::contact || fault->subject == FaultSubject::plug))
            return Thing{fault->subject, fault->part, fault->pin, -1, text};
    }
    return tl::unexpected("there is no part, wire, plug or plug contact '" + text + "'" +
                          did_you_mean(name, all_names(circuit)));
}

tl::expected<Thing, std::string> find_part_of(const Circuit& circuit, std::string_view name,
                                              const std::vector<std::string_view>& elements) {
    std::vector<std::string> known;
    for (const model::Part& part : circuit.parts)
        if (std::ranges::find(elements, part.kind->element) != elements.end()) known.push_back(part.id);
    if (std::ranges::find(known, name) == known.end())
        return tl::unexpected("'" + std::string(name) + "' is no " + listed(elements) +
                              did_you_mean(name, known));
    return find_thing(circuit, name);
}

bool sits_on(const network::Fault& fault, const Thing& thing) {
    switch (thing.subject) {
        case FaultSubject::wire:
            return fault.subject == FaultSubject::wire &&
                   (fault.wire == thing.wire || fault.other == thing.wire);
        case FaultSubject::contact:
            return fault.subject == FaultSubject::contact && fault.part == thing.part &&
                   (fault.pin == thing.pin || fault.other == thing.pin);
        case FaultSubject::plug:
            return fault.subject == FaultSubject::plug && fault.part == thing.part;
        case FaultSubject::part:
            break;
    }
    return fault.subject == FaultSubject::part && fault.part == thing.part;
}

int place_of_thing(const Circuit& circuit, const Thing& thing) {
    if (thing.wire < 0) return diagnosis::place_of(circuit, thing.part);
    const model::Wire& wire = circuit.wires[at(thing.wire)];
    return diagnosis::easier_place(circuit, wire);
}

double repair_minutes(const Circuit& circuit, const Thing& thing) {
    return diagnosis::repair_minutes(circuit, thing.subject, thing.part, {});
}

double rated_a(const model::Part& fuse) {
    const auto number = std::ranges::find(fuse.kind->numbers, "rating-a", &model::NumberSpec::name);
    return fuse.numbers[static_cast<std::size_t>(number - fuse.kind->numbers.begin())];
}

}  // namespace halfsplit::practice
