#include <algorithm>

#include "engine/model/kinds/faults_of.h"
#include "engine/model/kinds/kinds.h"
#include "engine/model/kinds/specs_of.h"
#include "engine/model/part_view.h"

namespace halfsplit::model::kinds {
namespace {

bool joins(const Element& element, const Contact& contact) {
    return (element.from == contact.from && element.to == contact.to) ||
           (element.from == contact.to && element.to == contact.from);
}

std::string contact_name(const Part& part, const Contact& contact) {
    return part.pins.at(static_cast<std::size_t>(contact.from)).id + "-" +
           part.pins.at(static_cast<std::size_t>(contact.to)).id;
}

void close_in(const PartView& part, const Contact& contact, int position, std::vector<Element>& elements) {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [&](const Element& element) { return joins(element, contact); });
    const Resistance law{part.number("switch-ohm")};
    if (found == elements.end())
        elements.push_back(
            {contact_name(part.part(), contact), contact.from, contact.to, law, {position}, true});
    else if (found->conducts_in.back() != position)
        found->conducts_in.push_back(position);
}

std::optional<Follower> follower(const PartView& part) {
    if (part.word("operated-by").empty() || part.part().positions.size() < 2) return std::nullopt;
    return Follower{.mechanism = std::string(part.word("operated-by")),
                    .at_start = part.word("operated-at") == "start",
                    .within = part.number("operated-percent") / 100};
}

/// One element for each pair of pins that some position joins.
Electrics electrics(const PartView& part) {
    std::vector<Element> elements;
    int position = 0;
    for (const Position& each : part.part().positions) {
        for (const Contact& contact : each.contacts) close_in(part, contact, position, elements);
        ++position;
    }
    return {.elements = std::move(elements), .triggers = {}, .follower = follower(part)};
}

}  // namespace

const PartKind& multi_position_switch() {
    static const PartKind kind{
        .element = "switch",
        .letter = "S",
        .title = "Switch",
        .text =
            "A switch of any number of pins and positions: each position lists the pins it joins. The first "
            "position is that at rest; a momentary one springs back to it. A limit switch is moved by a "
            "mechanism.",
        .pin_policy = PinPolicy::authored,
        .pins = {},
        .numbers = {switch_ohm(0.01, "of each closed contact"),
                    {.name = "operated-percent",
                     .unit = "%",
                     .fallback = 2,
                     .low = 0.1,
                     .high = 99,
                     .text = "how near to that end of the travel the mechanism moves it"}},
        .words = {{.name = "operated-by",
                   .choices = {},
                   .fallback = "",
                   .text = "the mechanism that moves it; left out, a hand does",
                   .refers_to = "mechanism"},
                  {.name = "operated-at",
                   .choices = {"start", "end"},
                   .fallback = "end",
                   .text = "the end of the mechanism's travel at which it leaves its first position"}},
        .authored_positions = true,
        .conditions = {},
        .operation = Operation::person,
        .faults = switch_faults(),
        .electrics = electrics};
    return kind;
}

}  // namespace halfsplit::model::kinds
