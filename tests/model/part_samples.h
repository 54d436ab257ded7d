#pragma once

#include <string>
#include <vector>

#include "tests/support/part_builder.h"

namespace halfsplit::test {

inline model::Pin unit_pin(std::string id, std::string kind,
                           std::map<std::string, std::string, std::less<>> words = {}) {
    return {std::move(id), std::move(kind), std::move(words), {}};
}

/// One pin of each kind a control unit can have, and a second supply and ground.
inline std::vector<model::Pin> control_unit_pins() {
    return {unit_pin("1", "supply"),
            unit_pin("2", "ground"),
            unit_pin("3", "supply"),
            unit_pin("4", "ground"),
            unit_pin("5", "input", {{"pull-up-ohm", "4700"}}),
            unit_pin("6", "input", {{"pull-down-ohm", "10000"}}),
            unit_pin("7", "high-side", {{"on-ohm", "0.03"}}),
            unit_pin("8", "low-side"),
            unit_pin("9", "half-bridge"),
            unit_pin("10", "bus", {{"bias-v", "2.5"}})};
}

/// A kind's part with what its author must write besides the attributes.
inline PartBuilder sample(const model::PartKind& kind) {
    PartBuilder builder(kind);
    if (kind.authored_positions)
        builder.pins({unit_pin("1", ""), unit_pin("2", ""), unit_pin("3", "")})
            .positions({{"auto", "", false, {}, {}},
                        {"out", "", false, {{0, 1}}, {}},
                        {"in", "", true, {{2, 0}, {1, 0}}, {}}});
    if (!kind.pin_kinds.empty()) builder.pins(control_unit_pins());
    return builder;
}

/// Parts of a kind that between them show everything it can be: its defaults, each choice of each word, and
/// all optional numbers given.
inline std::vector<model::Part> configurations(const model::PartKind& kind) {
    std::vector<model::Part> parts{sample(kind).part()};
    for (const model::WordSpec& word : kind.words) {
        for (const std::string_view choice : word.choices)
            parts.push_back(sample(kind).word(word.name, std::string(choice)).part());
        if (!word.refers_to.empty()) parts.push_back(sample(kind).word(word.name, "thing").part());
    }
    PartBuilder full = sample(kind);
    for (const model::NumberSpec& number : kind.numbers)
        if (std::isnan(number.fallback)) full.number(number.name, PartBuilder::allowed(number));
    parts.push_back(full.part());
    return parts;
}

}  // namespace halfsplit::test
