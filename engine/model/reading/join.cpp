#include <algorithm>

#include "engine/base/nearest.h"
#include "engine/model/reading/include.h"
#include "engine/model/reading/sections.h"

namespace halfsplit::model::reading {
namespace {

/// The id a part or wire of the included file has in the draft.
std::string joined_id(const Include& include, const std::string& id) {
    const auto same = include.same.find(id);
    return same == include.same.end() ? include.prefix + id : same->second.as;
}

/// Adds an included thing under its new id, or reports at the include that the id is taken.
bool add_joined(const Context& context, const Include& include, Draft& draft, const std::string& id,
                Ids::Entry entry) {
    const std::string came_from = to_text(entry.where);
    const Ids::Entry* first = draft.things.add(id, std::move(entry));
    if (first == nullptr) return true;
    context.report.error(include.where,
                         "the included " + id + " (" + came_from + ") has an id that stands at " +
                             to_text(first->where) +
                             "; another prefix, or <same> where it is the same thing, is expected");
    return false;
}

/// The part of the draft that an included part is said to be.
std::optional<int> same_part(const Context& context, const Include::Same& same, const Part& included,
                             const Draft& draft) {
    const auto index = draft.things.find(same.as, Sort::part);
    if (!index) {
        if (!draft.may_exist(same.as))
            context.report.error(same.where, "as: there is no part " + same.as + " here" +
                                                 did_you_mean(same.as, draft.things.all(Sort::part)));
        return std::nullopt;
    }
    const Part& part = draft.part(*index);
    if (part.kind == included.kind) return index;
    context.report.error(same.where, "the included " + included.id + " is a " +
                                         std::string(included.kind->element) + " but " + same.as + " is a " +
                                         std::string(part.kind->element) + "; the same kind is expected");
    return std::nullopt;
}

Part renamed(const Part& included, const Include& include) {
    Part part = included;
    part.id = include.prefix + part.id;
    if (!part.plug.empty()) part.plug = include.prefix + part.plug;
    for (std::size_t i = 0; i < part.words.size(); ++i) {
        const std::string_view target = part.kind->words[i].refers_to;
        if (!target.empty() && target != "quantity" && !part.words[i].empty())
            part.words[i] = joined_id(include, part.words[i]);
    }
    return part;
}

int add_part(const Context& context, const Include& include, Part part, Draft& draft) {
    const int index = static_cast<int>(draft.circuit.parts.size());
    if (!add_joined(context, include, draft, part.id, {Sort::part, index, part.where})) return -1;
    if (!part.plug.empty() && part.plug != part.id)
        add_joined(context, include, draft, part.plug, {Sort::plug, index, part.where});
    draft.circuit.parts.push_back(std::move(part));
    return index;
}

/// The pin of the draft that an included wire ends on; nullopt (reported) where a <same> part lacks it.
std::optional<PinRef> joined_pin(const Context& context, const Joined& joined, const Wire& wire, PinRef pin,
                                 const Draft& draft) {
    const int index = joined.part_index.at(static_cast<std::size_t>(pin.part));
    if (index < 0) return std::nullopt;
    const Part& included = joined.circuit.parts.at(static_cast<std::size_t>(pin.part));
    const std::string& pin_id = included.pins.at(static_cast<std::size_t>(pin.pin)).id;
    const Part& part = draft.part(index);
    const auto found = find_pin_index(part, pin_id);
    if (found) return PinRef{index, *found};
    context.report.error(joined.include.where, "the included wire " + wire.id + " ends on pin " + pin_id +
                                                   " of " + included.id + ", which is " + part.id +
                                                   " here and has no such pin");
    return std::nullopt;
}

void check_same_wire(const Context& context, const Include::Same& same, const Draft& draft) {
    if (!draft.things.find(same.as, Sort::wire) && !draft.may_exist(same.as))
        context.report.error(same.where, "as: there is no wire " + same.as + " here" +
                                             did_you_mean(same.as, draft.things.all(Sort::wire)));
}

void check_all_same_used(const Context& context, const Joined& joined) {
    std::vector<std::string_view> known;
    for (const Part& part : joined.circuit.parts) known.emplace_back(part.id);
    for (const Wire& wire : joined.circuit.wires) known.emplace_back(wire.id);
    for (const auto& [id, same] : joined.include.same)
        if (!same.used)
            context.report.error(same.where,
                                 "id: the included file has no part or wire " + id + did_you_mean(id, known));
}

}  // namespace

void join_world(const Context& context, const Joined& joined, Draft& draft) {
    for (const Quantity& quantity : joined.circuit.quantities) {
        const auto index = draft.things.find(quantity.id, Sort::quantity);
        if (!index) {
            const int next = static_cast<int>(draft.circuit.quantities.size());
            if (add_joined(context, joined.include, draft, quantity.id,
                           {Sort::quantity, next, quantity.where}))
                draft.circuit.quantities.push_back(quantity);
            continue;
        }
        const Quantity& here = draft.circuit.quantities.at(static_cast<std::size_t>(*index));
        if (here.unit != quantity.unit)
            context.report.error(joined.include.where, "the quantity " + quantity.id + " is in " + here.unit +
                                                           " here and in " + quantity.unit +
                                                           " in the included file; one unit is expected");
    }
    for (const Place& place : joined.circuit.places)
        if (draft.places.emplace(place.id, place.where).second) draft.circuit.places.push_back(place);
}

void join_parts(const Context& context, Joined& joined, Draft& draft) {
    for (const Part& included : joined.circuit.parts) {
        const auto same = joined.include.same.find(included.id);
        if (same == joined.include.same.end()) {
            joined.part_index.push_back(
                add_part(context, joined.include, renamed(included, joined.include), draft));
        } else {
            same->second.used = true;
            joined.part_index.push_back(same_part(context, same->second, included, draft).value_or(-1));
        }
    }
}

void join_wires(const Context& context, Joined& joined, Draft& draft) {
    for (const Wire& included : joined.circuit.wires) {
        const auto same = joined.include.same.find(included.id);
        if (same != joined.include.same.end()) {
            same->second.used = true;
            check_same_wire(context, same->second, draft);
            continue;
        }
        const auto from = joined_pin(context, joined, included, included.from, draft);
        const auto to = joined_pin(context, joined, included, included.to, draft);
        if (!from || !to) continue;
        Wire wire = included;
        wire.id = joined.include.prefix + wire.id;
        wire.from = *from;
        wire.to = *to;
        const int index = static_cast<int>(draft.circuit.wires.size());
        if (add_joined(context, joined.include, draft, wire.id, {Sort::wire, index, wire.where}))
            draft.circuit.wires.push_back(std::move(wire));
    }
    check_all_same_used(context, joined);
}

void join_states(const Context& context, const Joined& joined, Draft& draft) {
    for (OperatingState state : joined.circuit.states) {
        state.id = joined.include.prefix + state.id;
        for (StateStep& step : state.steps) {
            auto* set = std::get_if<SetStep>(&step);
            if (set == nullptr) continue;
            if (!draft.things.find(set->what, Sort::quantity))
                set->what = joined_id(joined.include, set->what);
            if (const auto problem = set_problem(draft, set->what, set->to))
                context.report.error(
                    set->where, problem->message + " (included from " + to_text(joined.include.where) + ")");
        }
        if (draft.states.emplace(state.id, state.where).second)
            draft.circuit.states.push_back(std::move(state));
        else
            context.report.error(
                joined.include.where,
                "the included state " + state.id + " has an id that is already given; a prefix is expected");
    }
}

}  // namespace halfsplit::model::reading
