#include "engine/network/placed_conditions.h"

#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/base/number.h"

namespace halfsplit::network {

namespace {

std::vector<std::string> settable_names(const model::Circuit& circuit) {
    std::vector<std::string> names;
    for (const model::Part& part : circuit.parts)
        if (part.kind->operation == model::Operation::person ||
            part.kind->operation == model::Operation::stated)
            names.push_back(part.id);
    for (const model::Quantity& quantity : circuit.quantities) names.push_back(quantity.id);
    return names;
}

std::vector<std::string> position_ids(const model::Part& part) {
    std::vector<std::string> ids;
    for (const model::Position& position : part.positions) ids.push_back(position.id);
    return ids;
}

/// Puts one part where it is wanted, or says why not.
tl::expected<void, std::string> place_part(const model::Circuit& circuit, const std::string& id,
                                           const std::string& wanted, Network& network) {
    const model::Part* part = circuit.find_part(id);
    if (part == nullptr)
        return tl::unexpected("nothing called '" + id + "' can be set" +
                              did_you_mean(id, settable_names(circuit)));
    if (part->kind->operation == model::Operation::triggered ||
        part->kind->operation == model::Operation::none)
        return tl::unexpected("'" + id + "' is a " + std::string(part->kind->element) +
                              " and cannot be set by hand");
    const auto position = std::ranges::find(part->positions, wanted, &model::Position::id);
    if (position == part->positions.end())
        return tl::unexpected("'" + id + "' has no position '" + wanted + "'; expected " +
                              listed(position_ids(*part)));
    network.conditions[static_cast<std::size_t>(part - circuit.parts.data())] =
        static_cast<int>(position - part->positions.begin());
    return {};
}

}  // namespace

void place_conditions(const model::Circuit& circuit, const Situation& situation, Network& network,
                      Diagnostics& problems) {
    network.conditions.assign(circuit.parts.size(), 0);
    network.forced.assign(circuit.parts.size(), false);
    for (const auto& [id, wanted] : situation.positions) {
        const auto placed = place_part(circuit, id, wanted, network);
        if (!placed) problems.push_back(problem(placed.error()));
    }
    for (const auto& [id, value] : situation.quantities) {
        const model::Quantity* quantity = circuit.find_quantity(id);
        if (quantity == nullptr) {
            problems.push_back(
                {{}, "nothing called '" + id + "' can be set" + did_you_mean(id, settable_names(circuit))});
        } else if (value < quantity->min || value > quantity->max) {
            problems.push_back(problem("'" + id + "' = " + number_text(value) +
                                       " is out of range; expected " + number_text(quantity->min) + " to " +
                                       number_text(quantity->max) + " " + quantity->unit));
        }
    }
}

}  // namespace halfsplit::network
